/** One thing to time, and what it is held against in the same run. */
export interface Measure {
  name: string;
  run: () => unknown;
  /** What a shop or a programmer would use instead, doing the same on the same data. */
  baseline?: { what: string; run: () => unknown };
  bar?: Bar;
  /** Rounds; each times both sides once, so that a busy moment hits both. */
  rounds?: number;
}

/** What the figures must keep to. */
export interface Bar {
  /** At most so many milliseconds. */
  ms?: number;
  /** At most so many times the baseline's time. */
  ratio?: number;
  /** The baseline takes at least so many times as long. */
  faster?: number;
  /** At most so many megabytes. */
  mb?: number;
}

export interface Figure {
  name: string;
  /** Median milliseconds, or megabytes where `unit` says so. */
  value: number;
  unit: 'ms' | 'MB' | '×';
  baseline?: { what: string; value: number };
  /** Ours over the baseline's. */
  ratio?: number;
  bar?: Bar;
  holds?: boolean;
}

const ROUNDS = 15;
/** A clock is trusted over at least this long; shorter runs are repeated within a round. */
const LEAST_MS = 4;

/** Medians of both sides, after one round that is not counted. */
export async function timed({ name, run, baseline, bar, rounds = ROUNDS }: Measure): Promise<Figure> {
  const [times, others]: [number[], number[]] = [[], []];
  const repeats = await repeatsOf(run);
  const baselineRepeats = baseline ? await repeatsOf(baseline.run) : 1;
  for (let round = 0; round < rounds; round++) {
    times.push(await once(run, repeats));
    if (baseline) others.push(await once(baseline.run, baselineRepeats));
  }
  return judged({
    name,
    value: middle(times),
    unit: 'ms',
    ...(baseline ? { baseline: { what: baseline.what, value: middle(others) } } : {}),
    ...(bar ? { bar } : {}),
  });
}

/** The figure with its ratio, and whether it keeps to its bar. */
export function judged(figure: Figure): Figure {
  const ratio = figure.baseline && figure.value / figure.baseline.value;
  const { bar } = figure;
  const holds =
    bar &&
    (bar.ms === undefined || figure.value <= bar.ms) &&
    (bar.mb === undefined || figure.value <= bar.mb) &&
    (bar.ratio === undefined || (ratio ?? (figure.unit === '×' ? figure.value : Infinity)) <= bar.ratio) &&
    (bar.faster === undefined || (ratio !== undefined && 1 / ratio >= bar.faster));
  return { ...figure, ...(ratio === undefined ? {} : { ratio }), ...(bar ? { holds: holds ?? false } : {}) };
}

async function once(run: () => unknown, repeats: number): Promise<number> {
  const start = performance.now();
  for (let i = 0; i < repeats; i++) await run();
  return (performance.now() - start) / repeats;
}

async function repeatsOf(run: () => unknown): Promise<number> {
  await run();
  const ms = await once(run, 1);
  return Math.max(1, Math.ceil(LEAST_MS / Math.max(ms, 0.001)));
}

export function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? NaN;
}

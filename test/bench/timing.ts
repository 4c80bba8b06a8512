/** One thing to time, and what it is held against in the same run. */
export interface Measure {
  name: string;
  /** Done before each run and not timed: a change, after which nothing is known any more. */
  before?: (() => unknown) | undefined;
  run: () => unknown;
  /** What a shop or a programmer would use instead, doing the same on the same data. */
  baseline?: { what: string; before?: (() => unknown) | undefined; run: () => unknown };
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
  /** The same in each run, so that two runs can be compared. */
  name: string;
  /** What else this run tells of it. */
  note?: string;
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
const MIN_MS = 4;
/** Each side runs so long before it is timed. */
const WARM_MS = 400;

/** Medians of both sides, after one round that is not counted. */
export async function timed({ name, before, run, baseline, bar, rounds = ROUNDS }: Measure): Promise<Figure> {
  const [times, others]: [number[], number[]] = [[], []];
  const ours = { before, run };
  const repeats = await repeatsOf(ours);
  const baselineRepeats = baseline ? await repeatsOf(baseline) : 1;
  for (let round = 0; round < rounds; round++) {
    times.push(await once(ours, repeats));
    if (baseline) others.push(await once(baseline, baselineRepeats));
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

type Timed = Pick<Measure, 'before' | 'run'>;

/** Milliseconds of one run; `before` is left out of the count. */
async function once({ before, run }: Timed, repeats: number): Promise<number> {
  let ms = 0;
  if (!before) {
    const start = performance.now();
    for (let i = 0; i < repeats; i++) await run();
    ms = performance.now() - start;
  } else
    for (let i = 0; i < repeats; i++) {
      await before();
      const start = performance.now();
      await run();
      ms += performance.now() - start;
    }
  return ms / repeats;
}

/**
 * How often it runs in a round, after a while of running: code is compiled while it runs, so its first runs tell nothing of the rest.
 * Doubled until it takes long enough, for one run that a busy machine held up is no measure.
 */
async function repeatsOf(one: Timed): Promise<number> {
  const warm = performance.now() + WARM_MS;
  do await once(one, 1);
  while (performance.now() < warm);
  let repeats = 1;
  while ((await once(one, repeats)) * repeats < MIN_MS) repeats *= 2;
  return repeats;
}

export function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? NaN;
}

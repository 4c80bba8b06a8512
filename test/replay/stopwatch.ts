/** How long each animal took: per step of its way through the shop, and all of it. */
export interface Stopwatch {
  /** Times what is done for `who` in one step. */
  time<T>(who: string, step: string, work: () => Promise<T>): Promise<T>;
  /** Milliseconds per animal, of one step or of all of them. */
  each(step?: string): number[];
  steps(): string[];
}

export function stopwatch(): Stopwatch {
  const spent = new Map<string, Map<string, number>>();
  return {
    async time(who, step, work) {
      const began = performance.now();
      try {
        return await work();
      } finally {
        const mine = spent.get(who) ?? new Map<string, number>();
        spent.set(who, mine);
        mine.set(step, (mine.get(step) ?? 0) + performance.now() - began);
      }
    },
    each: (step) =>
      [...spent.values()].flatMap((mine) => {
        if (step === undefined) return [[...mine.values()].reduce((sum, ms) => sum + ms, 0)];
        const ms = mine.get(step);
        return ms === undefined ? [] : [ms];
      }),
    steps: () => [...new Set([...spent.values()].flatMap((mine) => [...mine.keys()]))],
  };
}

/** The table that is printed: a row per step, the last for all of them. Times in `unit`. */
export function timesTable(watch: Stopwatch, unit: 'ms' | 's'): string[] {
  const scale = unit === 's' ? 1000 : 1;
  const row = (name: string, times: number[]): string => {
    const sorted = times.toSorted((a, b) => a - b);
    const at = (share: number): string =>
      ((sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? 0) / scale).toFixed(1);
    const mean = (sorted.reduce((sum, ms) => sum + ms, 0) / Math.max(1, sorted.length) / scale).toFixed(1);
    return [
      name.padEnd(26),
      ...[String(sorted.length), mean, at(0.5), at(0.95), at(1)].map((cell) => cell.padStart(9)),
    ].join('');
  };
  return [
    [
      `time per animal, ${unit}`.padEnd(26),
      ...['animals', 'mean', 'median', '95 %', 'longest'].map((cell) => cell.padStart(9)),
    ].join(''),
    ...watch.steps().map((step) => row(step, watch.each(step))),
    row('all of it', watch.each()),
  ];
}

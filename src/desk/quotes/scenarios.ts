/** What may come of an animal and its meat, case by case, and the range of any figure over the cases. */
import { quantile } from '../../core/stats/quantile.ts';
import type { Range } from '../contract/contract.ts';

/** The most likely case beside others. */
export interface Scenarios<T> {
  readonly mean: T;
  readonly all: readonly T[];
  /** Most likely, and the central range over the cases. */
  range(figure: (one: T) => number): Range;
  map<U>(work: (one: T) => U): Scenarios<U>;
}

/** The cases at the ends of a range: for figures that rise and fall together. */
export function atEnds<T>(low: T, mean: T, high: T): Scenarios<T> {
  return {
    mean,
    all: [low, mean, high],
    range: (figure) => ({ low: figure(low), mean: figure(mean), high: figure(high) }),
    map: (work) => atEnds(work(low), work(mean), work(high)),
  };
}

/** Cases drawn at random, as likely one as the other; the range holds `level` of them. */
export function drawn<T>(mean: T, draws: readonly T[], level: number): Scenarios<T> {
  return {
    mean,
    all: [mean, ...draws],
    range(figure) {
      const values = Float64Array.from(draws, figure).sort();
      const at = (p: number): number => quantile(values, p, 6);
      return { low: at((1 - level) / 2), mean: figure(mean), high: at((1 + level) / 2) };
    },
    map: (work) => drawn(work(mean), draws.map(work), level),
  };
}

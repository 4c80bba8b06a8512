/** The weekly pattern of arrivals. */
import { weekday, type DayCount } from './day-counts.ts';

/** The uniform prior counts as this many animals. Our own choice. */
const PRIOR_ANIMALS = 35;

/**
 * For each weekday, from Sunday, the arrivals relative to a mean day; the seven average 1. A period that is not a
 * whole number of weeks is slightly biased towards the weekdays it contains more often.
 * @example weekdayPattern([]) // [1, 1, 1, 1, 1, 1, 1]
 */
export function weekdayPattern(counts: readonly DayCount[]): number[] {
  const sums = new Array<number>(7).fill(PRIOR_ANIMALS / 7);
  for (const { on, animals } of counts) sums[weekday(on)]! += animals;
  const mean = sums.reduce((total, one) => total + one, 0) / 7;
  return sums.map((one) => one / mean);
}

/** Which days of the week bring how many animals: hunters come home on Sundays. */
import { weekday, type DayCount } from './day-counts.ts';

/** Taken as even until so many animals have shown otherwise. Our own choice. */
const PRIOR_ANIMALS = 35;

/**
 * For each weekday, from Sunday, how many times as many animals come as on a mean day; the seven have a mean of 1. A
 * stretch that is no whole number of weeks leans a little towards the weekdays that it has more of.
 * @example weekdayPattern([]) // [1, 1, 1, 1, 1, 1, 1]
 */
export function weekdayPattern(counts: readonly DayCount[]): number[] {
  const sums = new Array<number>(7).fill(PRIOR_ANIMALS / 7);
  for (const { on, animals } of counts) sums[weekday(on)]! += animals;
  const mean = sums.reduce((total, one) => total + one, 0) / 7;
  return sums.map((one) => one / mean);
}

/** How fast animals leave the hook. */
import { addDays } from '../values/dates.ts';
import { dailyCounts, dispersionOf, weekday, type DayCount, type Pace } from './day-counts.ts';

/** Three of each weekday: a pace of longer ago is another one. Our own choice, as below. */
const WINDOW_DAYS = 21;
/** How far the pace of the next weeks lies from that of the last. */
const PACE_DRIFT_SD = 0.15;

/**
 * Animals that left the hook on an open day, over the three weeks before today, or since `since`; a weekday is open when
 * one of its days in that time saw any leave. Today is not over and not counted.
 * @returns the pace, and whether a day is open
 */
export function cuttingPace(
  left: readonly DayCount[],
  today: string,
  since: string,
): Pace & { open: (on: string) => boolean } {
  const begin = addDays(today, -WINDOW_DAYS);
  const observed = dailyCounts(left, begin > since ? begin : since, addDays(today, -1));
  const weekdays = new Set(observed.filter(({ animals }) => animals > 0).map(({ on }) => weekday(on)));
  const open = (on: string): boolean => weekdays.has(weekday(on));
  const days = observed.filter(({ on }) => open(on));
  const animals = days.reduce((total, day) => total + day.animals, 0);
  const perDay = days.length > 0 ? animals / days.length : 0;
  const dispersion = dispersionOf(days.map((day) => ({ count: day.animals, expected: perDay })));
  return {
    perDay,
    dispersion,
    levelSd: Math.hypot(Math.sqrt(dispersion / Math.max(1, animals)), PACE_DRIFT_SD),
    days: days.length,
    open,
  };
}

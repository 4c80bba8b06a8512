/** How fast animals leave the hook. */
import { addDays } from '../values/dates.ts';
import { dailyCounts, dispersionOf, weekday, type DayCount, type Pace } from './day-counts.ts';

/** Three of each weekday; older days no longer describe the pace. Our own choice, like the next. */
const WINDOW_DAYS = 21;
/** Relative standard deviation between the last weeks' pace and the next. */
const PACE_DRIFT_SD = 0.15;

/**
 * Mean number of animals that left the hook per open day over the three weeks before today, or since `since`. A weekday is
 * open when animals left on one of its days in that time. Today is incomplete and not counted.
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

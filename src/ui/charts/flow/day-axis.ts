import { addDays, daysBetween } from '../../../core/values/dates.ts';
import type { Format } from '../../texts/format.ts';
import type { Axis } from '../plot.ts';

/** Up to so many days each may be labeled; of more, only Mondays. */
const EACH = 12;

/** An axis of days, each in a column of its own: the first at 0. */
export function daysAxis(from: string, to: string, format: Pick<Format, 'monthDay'>): Axis {
  const last = daysBetween(from, to);
  const days = Array.from({ length: last + 1 }, (_, i) => i);
  const isMonday = (day: number): boolean => new Date(`${addDays(from, day)}T00:00:00Z`).getUTCDay() === 1;
  return {
    min: -0.5,
    max: last + 0.5,
    ticks: days.length <= EACH ? days : days.filter(isMonday),
    written: (day) => format.monthDay(addDays(from, day)),
  };
}

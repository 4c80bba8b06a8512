/** Local calendar dates as `YYYY-MM-DD` text, without time and zone, so that daylight saving does not affect them. */
import { ValidationError } from './validation-error.ts';

const MS_PER_DAY = 86_400_000;
/**
 * The first and the last date that the shop's work may have. Paper records of earlier seasons go back to about 1950
 * at most; a year outside is a typing error. Our choice.
 */
export const FIRST_DAY = '1950-01-01';
export const LAST_DAY = '2099-12-31';

const SHAPE = /^(\d{4})-(\d{2})-(\d{2})$/;

/** Whether `text` is a valid calendar date: `2026-02-29` is not, `2028-02-29` is; years run from 0001 to 9999. */
export function isDate(text: string): boolean {
  return dayNumber(text) !== null;
}

/**
 * Whether `date` lies within `FIRST_DAY` to `LAST_DAY`.
 * @example isTradeDay('0026-11-20') // false, although the calendar has it
 */
export function isTradeDay(date: string): boolean {
  return isDate(date) && date >= FIRST_DAY && date <= LAST_DAY;
}

/**
 * Whole days from `from` to `to`; negative when `to` is earlier.
 * @example daysBetween('2026-10-30', '2026-11-06') // 7, although the clock changes in between
 * @throws ValidationError `date.unreadable`
 */
export function daysBetween(from: string, to: string): number {
  return needDay(to, 'to') - needDay(from, 'from');
}

/**
 * The date `days` days later, or earlier when negative.
 * @example addDays('2026-12-30', 3) // '2027-01-02'
 * @throws ValidationError `date.unreadable`, `date.days-not-whole`, `date.out-of-range` (outside years 1 to 9999)
 */
export function addDays(date: string, days: number): string {
  if (!Number.isSafeInteger(days)) throw new ValidationError('date.days-not-whole', 'days');
  const moment = new Date((needDay(date, 'date') + days) * MS_PER_DAY);
  const year = moment.getUTCFullYear();
  if (!(year >= 1 && year <= 9999)) throw new ValidationError('date.out-of-range', 'days', { date, days });
  return moment.toISOString().slice(0, 10);
}

/**
 * The same day so many years earlier; February 29 becomes the 28th where that year has none.
 * @example yearsBefore('2026-11-25', 3) // '2023-11-25'
 * @throws ValidationError `date.unreadable`, `date.out-of-range`
 */
export function yearsBefore(date: string, years: number): string {
  needDay(date, 'date');
  const year = Number(date.slice(0, 4)) - years;
  if (!(year >= 1 && year <= 9999)) throw new ValidationError('date.out-of-range', 'years', { date, years });
  const same = `${String(year).padStart(4, '0')}${date.slice(4)}`;
  return isDate(same) ? same : `${same.slice(0, 8)}28`;
}

/**
 * The full year of two typed digits: the one nearest to `thisYear`, the earlier of two equally near.
 * @example nearestYear(26, 2026) // 2026; nearestYear(98, 2026) // 1998
 */
export function nearestYear(twoDigits: number, thisYear: number): number {
  const century = thisYear - (thisYear % 100);
  const years = [century - 100, century, century + 100].map((from) => from + twoDigits);
  return years.reduce((best, year) => (Math.abs(year - thisYear) < Math.abs(best - thisYear) ? year : best));
}

/**
 * Comparator for sorting: below 0 when `a` is earlier, 0 when equal, above 0 when later.
 * @throws ValidationError `date.unreadable`
 */
export function compareDates(a: string, b: string): number {
  return needDay(a, 'a') - needDay(b, 'b');
}

/**
 * The season of a date, named by the year in which it starts: a season may span New Year.
 * @param startMonth 1 to 12, the month whose first day starts a season
 * @example seasonOf('2027-01-09', 7) // 2026
 * @throws ValidationError `date.unreadable`, `date.month`
 */
export function seasonOf(date: string, startMonth: number): number {
  if (!Number.isInteger(startMonth) || startMonth < 1 || startMonth > 12)
    throw new ValidationError('date.month', 'startMonth', { startMonth });
  needDay(date, 'date');
  const year = Number(date.slice(0, 4));
  return Number(date.slice(5, 7)) >= startMonth ? year : year - 1;
}

/** Days since 1970-01-01, or null for an invalid date. */
function dayNumber(text: string): number | null {
  const match = SHAPE.exec(text);
  if (!match) return null;
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  if (year < 1) return null;
  // Date.UTC reads years 0 to 99 as 1900 to 1999; setUTCFullYear does not.
  const moment = new Date(0);
  moment.setUTCFullYear(year, month - 1, day);
  const same = moment.getUTCMonth() === month - 1 && moment.getUTCDate() === day;
  return same ? moment.getTime() / MS_PER_DAY : null;
}

function needDay(text: string, field: string): number {
  const day = dayNumber(text);
  if (day === null) throw new ValidationError('date.unreadable', field, { date: text });
  return day;
}

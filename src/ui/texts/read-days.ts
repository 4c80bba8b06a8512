/** Parses typed dates: in digits, in words, or as a day of the month only. */
import { addDays, isDate, isTradeDay, nearestYear } from '../../core/values/dates.ts';
import type { DayOrder } from './days.ts';
import { dayOf, monthOf } from './day-words.ts';

/**
 * How an incomplete date is resolved. `back`: today or earlier, such as a kill date. `ahead`: today or later, such
 * as a promised date. A date without year or month is the nearest one in that direction.
 */
export type DayLook = 'back' | 'ahead';

interface ReadAs {
  order: DayOrder;
  /** `YYYY-MM-DD` in the shop's time zone. */
  today: string;
  /** By default, a date without year is in the current year, and a bare number is the most recent such day. */
  look?: DayLook | undefined;
}

/** Months to search for a day of the month: two consecutive months may lack it. */
const MONTHS_TRIED = 4;
/** Years to search for a date: February 29 occurs every four years, eight around 2100. */
const YEARS_TRIED = 9;

/**
 * Parses a date: `today`, `yesterday`, `27`, `11/27`, `11/27/26`, `Nov 27`, `2026-11-27`; null if invalid. Digits are
 * in the shop's order, separated by `/ . -` or spaces. Four leading digits are always a year; a two-digit year is the
 * nearest one. Implausible years (`isTradeDay`) are invalid.
 * @example readDay('4.11.26', { order: 'day first', today: '2026-11-24' }) // '2026-11-04'
 * @example readDay('27', { order: 'month first', today: '2026-11-24', look: 'ahead' }) // '2026-11-27'
 */
export function readDay(typed: string, as: ReadAs): string | null {
  const date = readAnyDay(typed, as);
  return date !== null && isTradeDay(date) ? date : null;
}

/**
 * True if the text is a complete date with an implausible year.
 * @example hasWrongYear('11/20/0026', …) // true
 */
export function hasWrongYear(typed: string, as: ReadAs): boolean {
  const date = isDate(typed) ? typed : readAnyDay(typed, as);
  return date !== null && !isTradeDay(date);
}

function readAnyDay(text: string, as: ReadAs): string | null {
  const typed = text.trim().toLowerCase();
  return relativeDay(typed, as.today) ?? bareDay(typed, as) ?? namedDay(typed, as) ?? inFigures(typed, as);
}

/** `today`, `yesterday`, `tomorrow`, or at least three letters of one. */
function relativeDay(typed: string, today: string): string | null {
  const days = dayOf(typed);
  return days === null ? null : addDays(today, days);
}

/** `27`: the nearest 27th in the field's direction. */
function bareDay(typed: string, { today, look = 'back' }: ReadAs): string | null {
  if (!/^\d{1,2}$/.test(typed)) return null;
  const step = look === 'back' ? -1 : 1;
  const first = Number(today.slice(0, 4)) * 12 + Number(today.slice(5, 7)) - 1;
  const months = Array.from({ length: MONTHS_TRIED }, (_, i) => first + i * step);
  const days = months.map((month) => dateOf(Math.floor(month / 12), (month % 12) + 1, Number(typed)));
  return days.find((day) => day !== null && liesThere(day, today, look)) ?? null;
}

/** `Nov 27`, `27 November 26`, `Nov 27, 2026`. */
function namedDay(typed: string, as: ReadAs): string | null {
  const match =
    /^(?<month>\p{L}+)\.?\s*(?<day>\d{1,2})(?:[\s,.]+(?<year>\d{2}|\d{4}))?$/u.exec(typed) ??
    /^(?<day>\d{1,2})(?:er)?\.?\s*(?:de\s+)?(?<month>\p{L}+)\.?(?:[\s,.]*(?:de\s+)?(?<year>\d{2}|\d{4}))?$/u.exec(
      typed,
    );
  const { month = '', day = '', year } = match?.groups ?? {};
  const number = monthOf(month);
  return number === null ? null : inYear(number, Number(day), year, as);
}

function inFigures(typed: string, as: ReadAs): string | null {
  const figures = /^(\d{1,4})\s*[/.\-\s]\s*(\d{1,2})(?:\s*[/.\-\s]\s*(\d{1,4}))?\.?$/.exec(typed);
  if (!figures) return null;
  const [, first = '', second = '', third] = figures;
  const yearAhead = first.length === 4 || (as.order === 'year first' && third !== undefined);
  const year = yearAhead ? first : third;
  if (yearAhead ? third === undefined || third.length > 2 : first.length > 2) return null;
  const [month, day] = yearAhead
    ? [second, third ?? '']
    : as.order === 'day first'
      ? [second, first]
      : [first, second];
  return inYear(Number(month), Number(day), year, as);
}

/** The date in the typed year, or the nearest in the field's direction. */
function inYear(month: number, day: number, year: string | undefined, as: ReadAs): string | null {
  const thisYear = Number(as.today.slice(0, 4));
  if (year !== undefined) {
    if (year.length !== 2 && year.length !== 4) return null;
    return dateOf(year.length === 2 ? nearestYear(Number(year), thisYear) : Number(year), month, day);
  }
  const { look } = as;
  if (!look) return dateOf(thisYear, month, day);
  const step = look === 'back' ? -1 : 1;
  const days = Array.from({ length: YEARS_TRIED }, (_, i) => dateOf(thisYear + i * step, month, day));
  return days.find((one) => one !== null && liesThere(one, as.today, look)) ?? null;
}

function liesThere(day: string, today: string, look: DayLook): boolean {
  return look === 'back' ? day <= today : day >= today;
}

function dateOf(year: number, month: number, day: number): string | null {
  const figures = (value: number, places: number): string => String(value).padStart(places, '0');
  const date = `${figures(year, 4)}-${figures(month, 2)}-${figures(day, 2)}`;
  return isDate(date) ? date : null;
}

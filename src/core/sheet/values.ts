/** Reads dates and weights from cells of a table file, in any date order and with either decimal mark. */
import { isDate, isTradeDay } from '../values/dates.ts';
import { ValidationError } from '../values/validation-error.ts';
import { parseReading, type Reading } from '../values/reading.ts';
import type { MassUnit } from '../values/units.ts';

export type DateOrder = 'day first' | 'month first';
export type DecimalMark = '.' | ',';

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const NUMBERS = /^(\d{1,2})([/.\- ])(\d{1,2})\2(\d{4}|\d{2})$/;
/** A time that a program may write after a date. */
const HOUR = /[T ,]+\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)?( ?[ap]\.?m\.?)?(Z|[+-]\d\d:?\d\d)?$/i;

/**
 * A calendar date as `YYYY-MM-DD`, from `2023-11-04`, `11/4/2023`, `04.11.23`, `4 Nov 2023`, `Nov 4, 2023`, with or
 * without a time after it. A two-digit year is the latest one up to `thisYear`.
 * @throws ValidationError `sheet.date`, `sheet.year` (outside the years of `isTradeDay`)
 */
export function readDay(text: string, order: DateOrder, thisYear: number): string {
  const plain = text.trim().replace(HOUR, '');
  const day = isoDay(plain) ?? numberDay(plain, order, thisYear) ?? namedDay(plain, thisYear);
  if (day === null || !isDate(day))
    throw new ValidationError('sheet.date', undefined, { typed: text.trim().slice(0, 60) });
  if (!isTradeDay(day))
    throw new ValidationError('sheet.year', undefined, { typed: text.trim().slice(0, 60), date: day });
  return day;
}

/** Which of the two numbers is the day: a number above 12 is no month. Null: these dates do not decide it. */
export function guessDateOrder(texts: readonly string[]): DateOrder | null {
  let [first, second, dotted] = [0, 0, 0];
  for (const text of texts) {
    const match = NUMBERS.exec(text.trim().replace(HOUR, ''));
    if (!match) continue;
    if (Number(match[1]) > 12) first++;
    if (Number(match[3]) > 12) second++;
    if (match[2] === '.') dotted++;
  }
  if (first !== second) return first > second ? 'day first' : 'month first';
  return dotted > 0 ? 'day first' : null;
}

/** The decimal mark of these weights; null when they do not decide it, as `1,234` and `1.234` alone do not. */
export function guessDecimal(texts: readonly string[]): DecimalMark | null {
  let [comma, point] = [0, 0];
  for (const text of texts) {
    if (/\d,\d{1,2}(\D|$)|\d\.\d{3},/.test(text)) comma++;
    if (/\d\.\d{1,2}(\D|$)|\d,\d{3}\./.test(text)) point++;
  }
  return comma === point ? null : comma > point ? ',' : '.';
}

/**
 * A weight of a cell, with its text as it stands. The file's decimal mark resolves an ambiguous number: with a
 * decimal point `1,234` is 1234, with a decimal comma it is 1.234.
 * @throws ValidationError `reading.*`
 */
export function readWeight(text: string, unit: MassUnit, decimal: DecimalMark): Reading {
  const group = decimal === '.' ? ',' : '.';
  const settled = text
    .replace(/\d{1,3}(?:[.,]\d{3})+(?=[.,]\d|\D|$)/g, (number) => number.replaceAll(group, ''))
    .replace(/(\d),(\d)/g, decimal === ',' ? '$1.$2' : '$1,$2');
  return { ...parseReading(settled, unit), typed: text.trim() };
}

function isoDay(text: string): string | null {
  const match = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(text);
  return match ? written(Number(match[1]), Number(match[2]), Number(match[3])) : null;
}

function numberDay(text: string, order: DateOrder, thisYear: number): string | null {
  const match = NUMBERS.exec(text);
  if (!match) return null;
  const [a, b, year] = [Number(match[1]), Number(match[3]), fullYear(match[4] ?? '', thisYear)];
  return order === 'day first' ? written(year, b, a) : written(year, a, b);
}

function namedDay(text: string, thisYear: number): string | null {
  const match =
    /^(?:(\d{1,2})[. -]*)?([a-z]{3,9})[. -]*(?:(\d{1,2})(?:st|nd|rd|th)?[ ,]+)?(\d{4}|\d{2})$/i.exec(
      text.replace(/^[a-z]{2,9}[., ]+(?=[a-z0-9])/i, (word) => (monthOf(word) > 0 ? word : '')),
    );
  const day = match?.[1] ?? match?.[3];
  if (!match || day === undefined) return null;
  return written(fullYear(match[4] ?? '', thisYear), monthOf(match[2] ?? ''), Number(day));
}

function monthOf(word: string): number {
  return MONTHS.indexOf(word.slice(0, 3).toLowerCase()) + 1;
}

function fullYear(digits: string, thisYear: number): number {
  if (digits.length === 4) return Number(digits);
  const century = thisYear - (thisYear % 100);
  return Number(digits) <= thisYear % 100 ? century + Number(digits) : century - 100 + Number(digits);
}

function written(year: number, month: number, day: number): string {
  return `${String(year).padStart(4, '0')}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
}

/** Validates moments and dates of a file of unknown origin. Tables accept any text in such columns. */
import { eachRow } from './each-row.ts';
import type { Db } from './db.ts';
import { quoted, tablesOf } from './tables.ts';

/**
 * Columns with a UTC moment, and with a calendar date; `test/book/file/check-moments.test.ts` compares the names
 * with the schema.
 */
const MOMENT = /^at$|_at$/;
const DAY = /^day$|_on$|_date$|^use_by$|^valid_(?:from|until)$/;

/** The prefix of a moment that is comparable as text. */
const BEGINS = /^\d{4}-\d\d-\d\dT/;

/** @returns 'moment', 'day', or null for other columns */
export function timeIn(column: string): 'moment' | 'day' | null {
  if (MOMENT.test(column)) return 'moment';
  return DAY.test(column) ? 'day' : null;
}

/** A column that contains moments or dates. */
export interface TimeColumn {
  table: string;
  column: string;
  kind: 'moment' | 'day';
}

/** All columns of a book that contain moments or dates. */
export function timeColumns(db: Db): TimeColumn[] {
  return tablesOf(db).flatMap(({ name: table, columns }) =>
    columns.flatMap((column) => {
      const kind = timeIn(column);
      return kind ? [{ table, column, kind }] : [];
    }),
  );
}

/** Whether a value is a moment in this program's format, or a valid date. */
export function isTime(value: unknown, kind: unknown): boolean {
  if (typeof value !== 'string') return false;
  if (kind === 'moment') return BEGINS.test(value) && !Number.isNaN(Date.parse(value));
  return isDay(value);
}

/** The first column found with an invalid moment or date, as `table.column`; null when there is none. */
export function invalidTime(db: Db): string | null {
  const found = timeColumns(db).find((one) => hasWrong(db, one));
  return found ? `${found.table}.${found.column}` : null;
}

function hasWrong(db: Db, { table, column, kind }: TimeColumn): boolean {
  const [from, of] = [quoted(table), quoted(column)];
  // Nearly all are in the usual format, which SQLite checks; only the others are checked one by one.
  const usual = kind === 'moment' ? `strftime('%Y-%m-%dT%H:%M:%fZ', ${of})` : `date(${of})`;
  const odd = db
    .prepare<[], string>(`SELECT ${of} FROM ${from} WHERE ${of} IS NOT NULL AND ${usual} IS NOT ${of}`)
    .pluck();
  for (const value of eachRow(odd)) if (!isTime(value, kind)) return true;
  return false;
}

/** SQLite's `date` turns an invalid date into another or into null. */
function isDay(value: string): boolean {
  if (!/^\d{4}-\d\d-\d\d$/.test(value)) return false;
  const moment = Date.parse(`${value}T00:00:00Z`);
  return !Number.isNaN(moment) && new Date(moment).toISOString().slice(0, 10) === value;
}

/** Moments and days of a file that may be of anybody's making. Tables let any text through where a moment belongs. */
import { eachRow } from './each-row.ts';
import type { Db } from './db.ts';
import { quoted, tablesOf } from './tables.ts';

/** Columns with a UTC moment, and with a day of the trade; `test/book/file/check-moments.test.ts` holds the names against the schema. */
const MOMENT = /^at$|_at$/;
const DAY = /_on$|_date$|^use_by$|^valid_(?:from|until)$/;

/** How a moment begins that is compared as text. */
const BEGINS = /^\d{4}-\d\d-\d\dT/;

/** @returns 'moment', 'day', or null for a column that holds neither */
export function timeIn(column: string): 'moment' | 'day' | null {
  if (MOMENT.test(column)) return 'moment';
  return DAY.test(column) ? 'day' : null;
}

/** The first column found with a value that is no moment or no day, as `table.column`; null when there is none. */
export function wrongTime(db: Db): string | null {
  for (const { name, columns } of tablesOf(db))
    for (const column of columns) {
      const kind = timeIn(column);
      if (kind !== null && hasWrong(db, name, column, kind)) return `${name}.${column}`;
    }
  return null;
}

function hasWrong(db: Db, table: string, column: string, kind: 'moment' | 'day'): boolean {
  const [from, of] = [quoted(table), quoted(column)];
  // Nearly all are as this program writes them, which SQLite sees; only others are looked at one by one.
  const usual = kind === 'moment' ? `strftime('%Y-%m-%dT%H:%M:%fZ', ${of})` : `date(${of})`;
  const odd = db
    .prepare<[], string>(`SELECT ${of} FROM ${from} WHERE ${of} IS NOT NULL AND ${usual} IS NOT ${of}`)
    .pluck();
  for (const value of eachRow(odd))
    if (kind === 'day' || !BEGINS.test(value) || Number.isNaN(Date.parse(value))) return true;
  return false;
}

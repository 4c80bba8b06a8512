import { BOOK_VERSION } from '../migrations/index.ts';
import type { Db } from '../file/db.ts';
import { rowsOfTable, tablesOf } from '../file/tables.ts';

/*
 * A whole book as JSON, version 1 of the format. It is plain JSON, laid out for reading line by line at any length:
 * the first line opens the file, each table has a line with its name and columns, each row has its own line.
 *
 * {"format":"gambrel-book","formatVersion":1,"bookVersion":3,"tables":[ {"table":"animal","columns":["id","season",
 * …],"rows":[ [1,2026, …], [2,2026, …] ]}, … ]}
 *
 * Values are those of the table: text, numbers, null. `bookVersion` is the version of the tables; their meaning is
 * documented in src/words/en-US/desk/book/columns.arb. The same book always gives the same text.
 */
export const FORMAT = 'gambrel-book';
export const FORMAT_VERSION = 1;

/** Yields the text of a book in chunks. */
export function* bookAsText(db: Db): Generator<string> {
  yield `${JSON.stringify({ format: FORMAT, formatVersion: FORMAT_VERSION, bookVersion: BOOK_VERSION, tables: [] }).slice(0, -2)}\n`;
  const tables = tablesOf(db);
  for (const [index, table] of tables.entries()) {
    yield `${JSON.stringify({ table: table.name, columns: table.columns, rows: [] }).slice(0, -2)}\n`;
    let before = '';
    for (const row of rowsOfTable(db, table)) {
      yield `${before}${JSON.stringify(row)}`;
      before = ',\n';
    }
    yield `${before === '' ? '' : '\n'}]}${index < tables.length - 1 ? ',' : ''}\n`;
  }
  yield ']}\n';
}

/** Descriptions of the book's tables and columns. */
import wordsJson from '../../../resources/book-columns.json' with { type: 'json' };
import { tablesOf } from '../../book/file/tables.ts';
import type { Db } from '../../book/file/db.ts';

interface Words {
  about: string;
  /** Columns with the same meaning in every table. */
  everywhere: Record<string, string>;
  tables: Record<string, { holds: string; columns: Record<string, string> }>;
}

export const BOOK_WORDS: Words = wordsJson;

/** The meaning of a column; undefined if undocumented. */
export function meaningOf(table: string, column: string): string | undefined {
  return BOOK_WORDS.tables[table]?.columns[column] ?? BOOK_WORDS.everywhere[column];
}

/** The whole description as text, table by table. */
export function* describeTables(db: Db): Generator<string> {
  yield `${BOOK_WORDS.about}\r\n`;
  for (const { name, columns } of tablesOf(db)) {
    yield `\r\n${name}: ${BOOK_WORDS.tables[name]?.holds ?? ''}\r\n`;
    for (const column of columns) yield `  ${column}: ${meaningOf(name, column) ?? ''}\r\n`;
  }
}

/** What the tables and columns of the book mean, in words. */
import wordsJson from '../../../resources/book-columns.json' with { type: 'json' };
import { tablesOf } from '../../book/file/tables.ts';
import type { Db } from '../../book/file/db.ts';

interface Words {
  about: string;
  /** Columns that mean the same in every table. */
  everywhere: Record<string, string>;
  tables: Record<string, { holds: string; columns: Record<string, string> }>;
}

export const BOOK_WORDS: Words = wordsJson;

/** What a column means; undefined if nobody wrote it down. */
export function meaningOf(table: string, column: string): string | undefined {
  return BOOK_WORDS.tables[table]?.columns[column] ?? BOOK_WORDS.everywhere[column];
}

/** All of it as text, table by table. */
export function* describeTables(db: Db): Generator<string> {
  yield `${BOOK_WORDS.about}\r\n`;
  for (const { name, columns } of tablesOf(db)) {
    yield `\r\n${name}: ${BOOK_WORDS.tables[name]?.holds ?? ''}\r\n`;
    for (const column of columns) yield `  ${column}: ${meaningOf(name, column) ?? ''}\r\n`;
  }
}

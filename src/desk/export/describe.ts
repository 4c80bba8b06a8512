/** Descriptions of the book's tables and columns. */
import { textsOf } from '../../words/area.ts';
import { text } from '../../words/compiled/desk/book/columns.ts';
import type { Language } from '../../words/languages.ts';
import '../../words/of-desk.ts';
import { tablesOf } from '../../book/file/tables.ts';
import type { Db } from '../../book/file/db.ts';

/** What is said of the book's tables. */
export interface BookWords {
  about: string;
  /** What a table holds; undefined if undocumented. */
  table(name: string): string | undefined;
  /** The meaning of a column, else that which it has in every table; undefined if undocumented. */
  column(table: string, column: string): string | undefined;
}

export function bookWords(language: Language): BookWords {
  const texts = textsOf(text, language);
  return {
    about: texts.get('about') ?? '',
    table: (name) => texts.get(`tables.${name}`),
    column: (table, column) => texts.get(`columns.${table}.${column}`) ?? texts.get(`everywhere.${column}`),
  };
}

/** The whole description as text, table by table. */
export function* describeTables(db: Db, language: Language): Generator<string> {
  const words = bookWords(language);
  yield `${words.about}\r\n`;
  for (const { name, columns } of tablesOf(db)) {
    yield `\r\n${name}: ${words.table(name) ?? ''}\r\n`;
    for (const column of columns) yield `  ${column}: ${words.column(name, column) ?? ''}\r\n`;
  }
}

/** Every text column of the book is put down as personal, as one that may hold personal text, or as never. */
import { describe, expect, it } from 'vitest';
import { openBook } from '../../../src/book/file/open.ts';
import { FOLLOWS, NEVER, NEVER_ANYWHERE } from '../../../src/book/privacy/other-text.ts';
import { PERSONAL_TEXT } from '../../../src/book/privacy/personal-text.ts';
import { tempBookPath } from '../temp-book.ts';

const db = openBook(tempBookPath(), new Date('2026-10-01T12:00:00Z'));
const columns = db
  .prepare<[], { table: string; column: string }>(
    `SELECT t.name AS "table", c.name AS "column" FROM pragma_table_list t, pragma_table_info(t.name) c
     WHERE t.schema = 'main' AND t.type = 'table' AND t.name NOT LIKE 'sqlite_%' AND c.type NOT IN ('INTEGER', 'REAL')
     ORDER BY 1, 2`,
  )
  .all();
db.close();

const classesOf = (table: string, column: string): string[] => [
  ...(PERSONAL_TEXT[table]?.columns[column] ? ['cleared'] : []),
  ...(FOLLOWS[table]?.includes(column) ? ['follows'] : []),
  ...(NEVER[table]?.includes(column) || NEVER_ANYWHERE.includes(column) ? ['never'] : []),
];

describe('the list of columns with personal text', () => {
  it('classifies every text column of the book exactly once', () => {
    const odd = columns
      .map(({ table, column }) => [`${table}.${column}`, classesOf(table, column)] as const)
      .filter(([, classes]) => classes.length !== 1);
    expect(odd).toEqual([]);
    expect(columns.length).toBeGreaterThan(150);
  });

  it('contains only existing columns', () => {
    const there = new Set(columns.map(({ table, column }) => `${table}.${column}`));
    const named = [
      ...Object.entries(PERSONAL_TEXT).flatMap(([table, one]) =>
        Object.keys(one.columns).map((column) => `${table}.${column}`),
      ),
      ...[FOLLOWS, NEVER].flatMap((list) =>
        Object.entries(list).flatMap(([table, of]) => of.map((column) => `${table}.${column}`)),
      ),
    ];
    expect(named.filter((one) => !there.has(one))).toEqual([]);
  });
});

import { expect, it, vi } from 'vitest';
import { openRecordBook } from '../../src/book/book.ts';
import { tempBookPath } from './temp-book.ts';

const now = new Date('2026-10-10T15:00:00Z');
const compiled: string[] = [];

// Compiled at once, as each was written, instead of at its first use.
vi.mock('../../src/book/file/late-statements.ts', () => ({
  prepareLate: (db: { prepare: (sql: string) => unknown }) => {
    const prepare = db.prepare.bind(db);
    db.prepare = (sql: string) => {
      compiled.push(sql);
      return prepare(sql);
    };
  },
}));

it('fits the schema in every statement of the book', () => {
  openRecordBook(tempBookPath(), now).close();
  expect(compiled.length).toBeGreaterThan(200);
});

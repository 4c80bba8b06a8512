/**
 * Breaks rules of a book in the memory of the desk that has it open. Temporary triggers and views belong to a
 * connection and are no part of the file, so the check of the schema finds the book as its version makes it.
 */
import Database from 'better-sqlite3';
import { BOOK_VERSION } from '../../src/book/migrations/index.ts';

export interface BookBreak {
  /** Temporary triggers and views, carried out on each connection that writes into the book. */
  temporary?: string;
  /** Alters the desk's own SQL where it is prepared. */
  rewrite?: (sql: string) => string;
}

/** @returns ends it again */
export function breakBook(bookPath: string, { temporary, rewrite = (sql) => sql }: BookBreak): () => void {
  const methods = Database.prototype as { prepare: (this: Database.Database, sql: string) => unknown };
  const whole = methods.prepare;
  const broken = new WeakSet<Database.Database>();
  methods.prepare = function prepare(sql) {
    if (this.name !== bookPath || this.readonly) return whole.call(this, sql);
    if (temporary && !broken.has(this) && this.pragma('user_version', { simple: true }) === BOOK_VERSION) {
      broken.add(this);
      this.exec(temporary);
    }
    return whole.call(this, rewrite(sql));
  };
  return () => void (methods.prepare = whole);
}

/** Rows that are not written, and nobody is told. */
export const ignored = (what: 'INSERT' | 'UPDATE', table: string, when: string): string =>
  `CREATE TEMP TRIGGER broken_on_purpose BEFORE ${what} ON main.${table} WHEN ${when} BEGIN SELECT RAISE(IGNORE); END;`;

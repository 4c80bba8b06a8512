/** A book with a row in every table, as its programs wrote it: each step of the schema, then rows for what is new in it. */
import Database from 'better-sqlite3';
import { APPLICATION_ID, BOOK_VERSION, MIGRATIONS } from '../../src/book/migrations/index.ts';
import { tempBookPath } from './temp-book.ts';
import { ROWS } from './versions/rows.ts';

/** @returns its path, in a folder of its own */
export function fullBook(version = BOOK_VERSION): string {
  const path = tempBookPath();
  const db = new Database(path);
  MIGRATIONS.slice(0, version).forEach((step, i) => {
    db.exec(step);
    db.exec(ROWS[i + 1] ?? '');
  });
  db.pragma(`application_id = ${APPLICATION_ID}`);
  db.pragma(`user_version = ${version}`);
  db.close();
  return path;
}

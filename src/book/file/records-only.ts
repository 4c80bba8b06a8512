/**
 * Makes a clean book from the records of a book with a modified schema: rows are copied, but none of its tables,
 * triggers, views and indexes.
 */
import Database from 'better-sqlite3';
import { APPLICATION_ID, BOOK_VERSION, MIGRATIONS } from '../migrations/index.ts';
import { openFile } from './open-file.ts';
import type { Db } from './db.ts';
import { repairTimes, type RepairedTime } from './repair-times.ts';
import { versionBuilt } from './schema-difference.ts';
import { withoutTriggers } from './without-triggers.ts';
import { quoted, tablesOf } from './tables.ts';
import { BookError, bookErrorOf } from './book-error.ts';

/**
 * Copies the records of the book at `from` into a new book at `to`, of the version of `from`. Derived rows are
 * recomputed. `from` is opened read-only and should be a copy.
 * @throws BookError `foreign`, `newer`, `damaged`; `misfit` where rows do not fit: a value that its table refuses,
 *   a row with a missing parent
 * @returns the repaired moments and dates
 */
export function copyRecords(from: string, to: string, now: Date): RepairedTime[] {
  const version = versionOf(from);
  const db = new Database(to);
  let repaired: RepairedTime[] = [];
  try {
    db.pragma('trusted_schema = OFF');
    db.pragma('foreign_keys = OFF');
    db.prepare('ATTACH ? AS other').run(from);
    db.transaction(() => {
      for (const step of MIGRATIONS.slice(0, version)) db.exec(step);
      withoutTriggers(
        db,
        () => true,
        () => (repaired = fill(db, now)),
      );
      db.pragma(`application_id = ${APPLICATION_ID}`);
      db.pragma(`user_version = ${version}`);
    })();
    const loose = db.pragma('main.foreign_key_check') as { table: string }[];
    if (loose[0]) throw new BookError('misfit', from, loose[0].table);
    db.exec('DETACH other');
    return repaired;
  } catch (error) {
    throw isOfRows(error) ? new BookError('misfit', from, String(error)) : bookErrorOf(error, from);
  } finally {
    db.close();
  }
}

function versionOf(path: string): number {
  const db = openFile(path, { readonly: true, fileMustExist: true });
  try {
    if (db.pragma('application_id', { simple: true }) !== APPLICATION_ID)
      throw new BookError('foreign', path);
    const version = Number(db.pragma('user_version', { simple: true }));
    if (version > BOOK_VERSION) throw new BookError('newer', path, `version ${version}`);
    return versionBuilt(db) ?? (version >= 1 ? version : newestOf(db));
  } finally {
    db.close();
  }
}

/** Where the version number is lost too: the newest version that introduced a column which exists. */
function newestOf(db: Db): number {
  const present = recordTables(db, 'main');
  const empty = new Database(':memory:');
  const known = new Set<string>();
  let newest = 1;
  MIGRATIONS.forEach((step, at) => {
    empty.exec(step);
    for (const { name, columns } of tablesOf(empty))
      for (const column of columns) {
        const key = `${name}.${column}`;
        if (!known.has(key) && present.get(name)?.has(column)) newest = at + 1;
        known.add(key);
      }
  });
  empty.close();
  return newest;
}

function fill(db: Db, now: Date): RepairedTime[] {
  const found = recordTables(db, 'other');
  const tables = tablesOf(db);
  for (const { name, columns } of tables) {
    const given = found.get(name);
    const names = columns.filter((column) => given?.has(column)).map(quoted);
    db.exec(`DELETE FROM main.${quoted(name)}`);
    if (names.length > 0)
      db.exec(
        `INSERT INTO main.${quoted(name)} (${names.join()}) SELECT ${names.join()} FROM other.${quoted(name)}`,
      );
  }
  const repaired = repairTimes(db, now);
  for (const { name } of tables) recompute(db, name);
  return repaired;
}

/** Fills a materialised view from its `_now` view. Season summaries are left empty and computed later. */
export function recompute(db: Db, name: string): void {
  if (name === 'season_taught') db.exec('DELETE FROM main.season_taught');
  const view = `${name}_now`;
  if (!/_(sum|lookup)$/.test(name) || !isThere(db, view)) return;
  db.exec(
    `DELETE FROM main.${quoted(name)}; INSERT INTO main.${quoted(name)} SELECT * FROM main.${quoted(view)}`,
  );
}

function isThere(db: Db, view: string): boolean {
  const found = db.prepare("SELECT 1 FROM main.sqlite_schema WHERE type = 'view' AND name = ?").get(view);
  return found !== undefined;
}

/** The base tables of a database with their stored columns, without generated ones. */
function recordTables(db: Db, schema: 'main' | 'other'): Map<string, Set<string>> {
  const names = db
    .prepare<[string], string>("SELECT name FROM pragma_table_list WHERE schema = ? AND type = 'table'")
    .pluck()
    .all(schema);
  const columns = db
    .prepare<[string, string], string>('SELECT name FROM pragma_table_xinfo(?, ?) WHERE hidden = 0')
    .pluck();
  return new Map(names.map((name) => [name, new Set(columns.all(name, schema))]));
}

function isOfRows(error: unknown): boolean {
  return error instanceof Database.SqliteError && /^SQLITE_(CONSTRAINT|MISMATCH|RANGE)/.test(error.code);
}

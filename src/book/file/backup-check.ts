/** Verifies a backup before anybody relies on it. */
import Database from 'better-sqlite3';
import { identityOf } from './book-identity.ts';
import { APPLICATION_ID, BOOK_VERSION } from '../migrations/index.ts';
import { openFile } from './open-file.ts';
import { BookError } from './book-error.ts';

/** The contents of a backup, for the list to choose from. */
export interface BackupContents {
  version: number;
  animals: number;
  weighings: number;
  payments: number;
  /** UTC moment of the newest entry, or null in an empty book. */
  lastEntry: string | null;
  /** The identity of its book, or null for an old book without entries. */
  book: string | null;
  /** Name of the shop; empty if never set. */
  shop: string;
}

/** Tables whose row counts are compared; amounts and weights are summed as well. */
const COUNTED = ['hunter', 'animal', 'weighing', 'weighing_void', 'fat_movement', 'bill', 'payment', 'audit'];
const SUMMED = { weighing: 'grams', fat_movement: 'grams', bill: 'total_minor', payment: 'amount_minor' };
/** Tables whose entries carry a moment. */
const DATED = ['weighing', 'instruction', 'payment', 'bill', 'fat_movement', 'release', 'audit'];

/**
 * Opens the plain copy at `path` read-only and verifies it: application id, `integrity_check`, foreign keys, and if
 * `wanted` is given, counts and totals equal to it or between it and `until`.
 * @throws BookError `backup` when the copy is not sound, `newer` when a newer program wrote it
 */
export function checkCopy(path: string, expected: string | null, until = expected): BackupContents {
  let copy: Database.Database | undefined;
  try {
    copy = openFile(path, { readonly: true, fileMustExist: true });
    if (copy.pragma('application_id', { simple: true }) !== APPLICATION_ID)
      throw new BookError('backup', path, 'mark');
    const found = copy.pragma('integrity_check(1)', { simple: true });
    if (found !== 'ok') throw new BookError('backup', path, String(found));
    const loose = copy.pragma('foreign_key_check') as unknown[];
    if (loose.length > 0) throw new BookError('backup', path, `${loose.length} loose ends`);
    if (expected !== null && !isBetween(totals(copy), expected, until ?? expected))
      throw new BookError('backup', path, 'rows differ from the book');
    const contents = contentsOf(copy);
    if (contents.version > BOOK_VERSION) throw new BookError('newer', path, `version ${contents.version}`);
    return contents;
  } catch (error) {
    throw error instanceof Database.SqliteError ? new BookError('backup', path, error.message) : error;
  } finally {
    copy?.close();
  }
}

/** Whether each figure of some totals lies between those of two others, bounds included. */
function isBetween(found: string, from: string, to: string): boolean {
  if (found === from) return true;
  const figures = (text: string): number[] => text.split(', ').map((one) => Number(one.split(' ')[1]));
  const names = (text: string): string => text.replaceAll(/ [^,]+/g, '');
  if (names(found) !== names(from) || names(found) !== names(to)) return false;
  const [start, end] = [figures(from), figures(to)];
  return figures(found).every(
    (one, i) =>
      one >= Math.min(start[i] ?? NaN, end[i] ?? NaN) && one <= Math.max(start[i] ?? NaN, end[i] ?? NaN),
  );
}

/**
 * Row counts, summed weights and amounts as one text, to compare a copy with its original; later versions' tables
 * may be missing.
 */
export function totals(db: Database.Database): string {
  const present = tablesOf(db);
  return [
    ...COUNTED.filter((table) => present.has(table)).map((table) => `${table} ${count(db, table)}`),
    ...Object.entries(SUMMED)
      .filter(([table]) => present.has(table))
      .map(
        ([table, column]) => `${table} ${db.prepare(`SELECT total(${column}) FROM ${table}`).pluck().get()}`,
      ),
  ].join(', ');
}

/** The moment of the newest entry: the last row of each kind, so that a clock set back does not hide it. */
export function lastEntryOf(db: Database.Database): string | null {
  const present = tablesOf(db);
  const lasts = DATED.filter((table) => present.has(table)).map((table) =>
    db.prepare<[], string>(`SELECT at FROM ${table} ORDER BY id DESC LIMIT 1`).pluck().get(),
  );
  return lasts.reduce<string | null>((last, at) => (at && (!last || at > last) ? at : last), null);
}

function contentsOf(db: Database.Database): BackupContents {
  return {
    version: Number(db.pragma('user_version', { simple: true })),
    animals: count(db, 'animal'),
    weighings: count(db, 'weighing'),
    payments: count(db, 'payment'),
    lastEntry: lastEntryOf(db),
    book: identityOf(db),
    shop: shopOf(db),
  };
}

/** The name of the book's shop; empty if never set. */
export function shopOf(db: Database.Database): string {
  const stored = db.prepare<[], string>("SELECT value FROM setting WHERE key = 'shopName'").pluck().get();
  const name: unknown = stored === undefined ? '' : JSON.parse(stored);
  return typeof name === 'string' ? name : '';
}

function count(db: Database.Database, table: string): number {
  return Number(db.prepare(`SELECT count(*) FROM ${table}`).pluck().get());
}

function tablesOf(db: Database.Database): Set<unknown> {
  return new Set(db.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all());
}

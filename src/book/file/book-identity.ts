/**
 * The identity of a book. A backup carries the identity of its book, so copies of several books may share a folder
 * and each book deletes only its own.
 *
 * A new book draws a random identity at creation and stores it in `setting`. For an older book it is derived from
 * the first audit row, which never changes, so its old backups give the same. A restored backup, a copied file and
 * a book imported from text keep their identity; the demo's is derived from its first entry.
 *
 * Two copies of one file may continue as two shops with the same identity. Therefore a label also states the newest
 * entries: a backup whose newest entries are not in this book belongs to another continuation.
 */
import { createHash, randomUUID } from 'node:crypto';
import type Database from 'better-sqlite3';

type Db = Database.Database;

/** The label that a backup carries. */
export interface BookLabel {
  /** 32 hexadecimal digits, or null for a book without any entry. */
  book: string | null;
  /** The newest entry of each append-only table: its id and its UTC moment. */
  newest: Record<string, [id: number, at: string]>;
}

const KEY = 'bookIdentity';
const IDENTITY = /^[0-9a-f]{32}$/;
/** Append-only tables, each with its moment column. */
const GROWING = ['audit', 'weighing', 'instruction', 'payment', 'bill', 'fat_movement', 'release'];
/** Number of digits used in a file name. */
const SHORT = 8;

/** The identity of an open book, or null for an old book without entries. */
export function identityOf(db: Db): string | null {
  const stored = db.prepare<[string], string>('SELECT value FROM setting WHERE key = ?').pluck().get(KEY);
  const identity: unknown = stored === undefined ? null : JSON.parse(stored);
  if (typeof identity === 'string' && IDENTITY.test(identity)) return identity;
  const first = db
    .prepare<[], string[]>('SELECT at, record, record_id, act FROM audit ORDER BY id LIMIT 1')
    .raw()
    .get();
  return first ? createHash('sha256').update(JSON.stringify(first)).digest('hex').slice(0, 32) : null;
}

/** Draws an identity for a book without one. */
export function ensureIdentity(db: Db): void {
  if (identityOf(db) !== null) return;
  db.transaction(() => {
    // Another program may have drawn one in the meantime.
    if (identityOf(db) !== null) return;
    const drawn = JSON.stringify(randomUUID().replaceAll('-', ''));
    db.prepare('INSERT OR REPLACE INTO setting (key, value) VALUES (?, ?)').run(KEY, drawn);
  }).immediate();
}

/** The part of an identity used in the names of backups. @example inName('3f9a2c81…') // '3f9a2c81' */
export function inName(identity: string): string {
  return identity.slice(0, SHORT);
}

/** The label of a backup made now. */
export function labelOf(db: Db): BookLabel {
  const present = new Set(
    db.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all(),
  );
  const newest = GROWING.filter((table) => present.has(table)).flatMap((table) => {
    const row = db
      .prepare<[], [number, string]>(`SELECT id, at FROM ${table} ORDER BY id DESC LIMIT 1`)
      .raw()
      .get();
    return row ? [[table, row] as const] : [];
  });
  return { book: identityOf(db), newest: Object.fromEntries(newest) };
}

/**
 * Whether a backup is an earlier state of this book: it has the same identity, and the book contains the backup's
 * newest entries.
 */
export function isEarlierState(db: Db, label: BookLabel): boolean {
  return (
    label.book !== null &&
    label.book === identityOf(db) &&
    Object.entries(label.newest).every(
      ([table, [id, at]]) =>
        GROWING.includes(table) &&
        db.prepare<[number], string>(`SELECT at FROM ${table} WHERE id = ?`).pluck().get(id) === at,
    )
  );
}

/** Parses a label. @returns null for invalid text */
export function readLabel(text: string): BookLabel | null {
  let label: unknown;
  try {
    label = JSON.parse(text);
  } catch {
    return null;
  }
  if (typeof label !== 'object' || label === null || !('book' in label) || !('newest' in label)) return null;
  const { book, newest } = label;
  if (book !== null && !(typeof book === 'string' && IDENTITY.test(book))) return null;
  if (typeof newest !== 'object' || newest === null) return null;
  const rows = Object.entries(newest as Record<string, unknown>);
  if (!rows.every(([, row]) => isRow(row))) return null;
  return { book, newest: newest as BookLabel['newest'] };
}

function isRow(row: unknown): boolean {
  return Array.isArray(row) && row.length === 2 && Number.isInteger(row[0]) && typeof row[1] === 'string';
}

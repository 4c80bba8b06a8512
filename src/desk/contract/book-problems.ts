/** Problems of the book's file, of a backup or of the second place. */
import Database from 'better-sqlite3';
import { BookError, bookErrorOf, type BookErrorCode } from '../../book/file/book-error.ts';
import type { Problem } from './problem.ts';

const OF_BOOK: Readonly<Record<BookErrorCode, string>> = {
  folder: 'book.folder',
  'read-only': 'book.read-only',
  full: 'book.full',
  drive: 'book.drive',
  damaged: 'book.damaged',
  changed: 'book.changed',
  foreign: 'book.foreign',
  altered: 'book.altered',
  times: 'backup.times',
  misfit: 'book.misfit',
  link: 'book.link',
  newer: 'book.newer',
  locked: 'book.locked',
  missing: 'book.missing',
  absent: 'book.absent',
  addon: 'book.addon',
  migration: 'book.migration',
  backup: 'book.backup',
  backups: 'book.backups',
  'no-list': 'second.unreadable',
  'no-stick': 'second.missing',
  'same-place': 'second.own-folder',
  temporary: 'temporary.full',
  unlocked: 'second.unlocked',
  passphrase: 'backup.passphrase',
};
const OF_SECOND: Readonly<Partial<Record<BookErrorCode, string>>> = {
  full: 'second.full',
  'read-only': 'second.read-only',
  folder: 'second.drive',
  drive: 'second.drive',
  backup: 'second.bad',
};
const OF_BACKUP: Readonly<Partial<Record<BookErrorCode, string>>> = {
  backup: 'backup.bad',
  damaged: 'backup.bad',
  foreign: 'backup.bad',
  migration: 'backup.bad',
  altered: 'backup.altered',
  misfit: 'backup.misfit',
  missing: 'backup.gone',
  folder: 'backup.gone',
  newer: 'backup.newer',
};
const TABLES = { book: OF_BOOK, second: OF_SECOND, backup: OF_BACKUP };

/** Converts an error by its place: the book, the second place, or a backup to restore. */
export function problemOfBookError(
  { code, path, difference }: BookError,
  where: keyof typeof TABLES = 'book',
): Problem & { with: { path: string } } {
  return { kind: 'broken', code: TABLES[where][code] ?? OF_BOOK[code], with: { path, ...difference } };
}

/** The error of the file at `path` or its drive, or null for any other error. */
export function bookErrorIn(error: unknown, path: string): BookError | null {
  if (error instanceof BookError) return error;
  const ofSystem = error instanceof Error && 'syscall' in error;
  const ofFile =
    error instanceof Database.SqliteError &&
    /^SQLITE_(BUSY|LOCKED|READONLY|PERM|FULL|CANTOPEN|IOERR|NOTADB|CORRUPT)/.test(error.code);
  const trouble = bookErrorOf(error, path);
  return ofSystem || ofFile || trouble.code === 'addon' ? trouble : null;
}

import { existsSync, statSync, statfsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname } from 'node:path';
import type { SchemaDifference } from './schema-difference.ts';

/** Why a book or a backup cannot be used; each code has a remedy. */
export type BookErrorCode =
  | 'folder' // the folder cannot be used, or does not support a write-ahead log
  | 'read-only'
  | 'full'
  | 'drive' // the drive returns errors: removed, or failing
  | 'damaged'
  | 'changed' // differs from its state at the last close
  | 'foreign'
  | 'altered' // schema differs from that of its version
  | 'times' // contains an invalid moment or date
  | 'misfit' // its records do not fit into a clean book
  | 'link' // a link in place of one of our files
  | 'newer'
  | 'locked' // open in another program
  | 'missing'
  | 'absent' // named on the command line, and missing
  | 'addon' // the SQLite addon cannot be loaded; the book was not read
  | 'migration'
  | 'backup' // a copy is not sound
  | 'backups' // the folder for backups cannot be used
  | 'no-list' // a folder of backups elsewhere cannot be read
  | 'no-stick' // the second place is missing
  | 'same-place' // the second place is the backup folder
  | 'temporary' // the folder for temporary files is full
  | 'unlocked' // a plain copy would lie among locked ones
  | 'passphrase';

/** Thrown when the book's file cannot be used. */
export class BookError extends Error {
  readonly code: BookErrorCode;
  readonly path: string;
  /** The system's message, for the log. */
  readonly detail: string;
  /** With `altered`: how the schema differs from that of its version; null where only the version number differs. */
  readonly difference: SchemaDifference | null;

  constructor(code: BookErrorCode, path: string, detail = '', difference: SchemaDifference | null = null) {
    super(`book ${code}: ${path}${detail ? ` (${detail})` : ''}`);
    this.name = 'BookError';
    this.code = code;
    this.path = path;
    this.detail = detail;
    this.difference = difference;
  }
}

/** Result codes of SQLite and of the system, tested in this order. */
const MEANINGS: readonly [RegExp, BookErrorCode][] = [
  // Node's codes for a library that is damaged, blocked or missing; the book was not touched.
  [/^(ERR_DLOPEN_FAILED|(ERR_)?MODULE_NOT_FOUND)$/, 'addon'],
  [/^SQLITE_(BUSY|LOCKED)/, 'locked'],
  [/^SQLITE_(READONLY|PERM)|^E(ACCES|PERM|ROFS)$/, 'read-only'],
  [/^SQLITE_FULL|^E(NOSPC|DQUOT|FBIG)$/, 'full'],
  // The log uses shared memory, which network drives do not offer.
  [/^SQLITE_(CANTOPEN|IOERR_SHM)/, 'folder'],
  [/^SQLITE_NOTADB/, 'foreign'],
  [/^SQLITE_IOERR|^E(IO|NXIO|NODEV|STALE)$/, 'drive'],
  [/^SQLITE_CORRUPT/, 'damaged'],
  [/^E[A-Z]+$/, 'folder'],
];

/** Below this, a failure to create a file counts as a full disk: a page of a log and its index. */
const HARDLY_ANY_BYTES = 64 * 1024;

/**
 * Maps an error of SQLite or the system to a BookError; on a full disk SQLite only reports that it cannot open a
 * file.
 */
export function bookErrorOf(error: unknown, path: string): BookError {
  if (error instanceof BookError) return error;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const detail = error instanceof Error ? error.message : String(error);
  const meaning = MEANINGS.find(([pattern]) => pattern.test(code))?.[1] ?? 'damaged';
  const room = freeBytes(dirname(path));
  const full = (meaning === 'folder' || meaning === 'drive') && room < HARDLY_ANY_BYTES;
  // SQLite uses temporary files for sorting and rollback, and does not report which file had no room.
  if (
    (full || meaning === 'full') &&
    code.startsWith('SQLITE_') &&
    temporaryLiesApart(path) &&
    freeBytes(tmpdir()) < room
  )
    return new BookError('temporary', tmpdir(), detail);
  return new BookError(full ? 'full' : meaning, path, detail);
}

/** Whether temporary files are on another disk than the book. */
function temporaryLiesApart(path: string): boolean {
  const at = (folder: string) => statSync(folder, { throwIfNoEntry: false })?.dev;
  return at(tmpdir()) !== at(dirname(path));
}

/** Free bytes in a folder; Infinity if unknown. */
export function freeBytes(folder: string): number {
  if (!existsSync(folder)) return Infinity;
  const { bavail, bsize, blocks } = statfsSync(folder);
  return blocks > 0 ? bavail * bsize : Infinity;
}

import { existsSync, statSync, statfsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname } from 'node:path';
import type { SchemaDifference } from './schema-difference.ts';

/** Why a book or a backup cannot be used, each with a way on. */
export type BookErrorCode =
  | 'folder' // the folder cannot be used, or takes no write-ahead log
  | 'read-only'
  | 'full'
  | 'drive' // the drive gives errors: pulled out, or failing
  | 'damaged'
  | 'changed' // not as it was left when it was last closed
  | 'foreign'
  | 'altered' // not built as its version is
  | 'times' // a moment or day in it is none
  | 'misfit' // its records do not go into a clean book
  | 'link' // a link lies where a file of ours should
  | 'newer'
  | 'locked' // open in another program
  | 'missing'
  | 'absent' // named by whoever started the program, and not there
  | 'addon' // the program's own SQLite library cannot be loaded; nothing is known of the book
  | 'migration'
  | 'backup' // a copy is not sound
  | 'backups' // the folder for backups cannot be used
  | 'no-list' // a folder of backups elsewhere cannot be read
  | 'no-stick' // the second place is not there
  | 'same-place' // the second place is where the backups lie anyway
  | 'temporary' // the folder for temporary files has no room
  | 'unlocked' // a plain copy would lie among locked ones
  | 'passphrase';

/** Thrown by the book when the file itself is the matter. */
export class BookError extends Error {
  readonly code: BookErrorCode;
  readonly path: string;
  /** What the system said, for the log. */
  readonly detail: string;
  /** With `altered`, in what the book is not built as its version is; null where it is only marked as another version. */
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

/** Result codes of SQLite and of the system, in the order in which they are tried. */
const MEANINGS: readonly [RegExp, BookErrorCode][] = [
  // Node's codes for a library that is damaged, blocked or not there; the book was not touched.
  [/^(ERR_DLOPEN_FAILED|(ERR_)?MODULE_NOT_FOUND)$/, 'addon'],
  [/^SQLITE_(BUSY|LOCKED)/, 'locked'],
  [/^SQLITE_(READONLY|PERM)|^E(ACCES|PERM|ROFS)$/, 'read-only'],
  [/^SQLITE_FULL|^E(NOSPC|DQUOT|FBIG)$/, 'full'],
  // The log is shared through memory, which drives on a network do not offer.
  [/^SQLITE_(CANTOPEN|IOERR_SHM)/, 'folder'],
  [/^SQLITE_NOTADB/, 'foreign'],
  [/^SQLITE_IOERR|^E(IO|NXIO|NODEV|STALE)$/, 'drive'],
  [/^SQLITE_CORRUPT/, 'damaged'],
  [/^E[A-Z]+$/, 'folder'],
];

/** With less room than this, a file that could not be made is a matter of room: a page of a log and its index. */
const HARDLY_ANY_BYTES = 64 * 1024;

/** Names what SQLite or the system refused, by its code; on a full disk SQLite says only that it cannot open a file. */
export function bookErrorOf(error: unknown, path: string): BookError {
  if (error instanceof BookError) return error;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const detail = error instanceof Error ? error.message : String(error);
  const meaning = MEANINGS.find(([pattern]) => pattern.test(code))?.[1] ?? 'damaged';
  const room = roomIn(dirname(path));
  const full = (meaning === 'folder' || meaning === 'drive') && room < HARDLY_ANY_BYTES;
  // SQLite sorts and undoes in temporary files, and does not say which of its files found no room.
  if (
    (full || meaning === 'full') &&
    code.startsWith('SQLITE_') &&
    temporaryLiesApart(path) &&
    roomIn(tmpdir()) < room
  )
    return new BookError('temporary', tmpdir(), detail);
  return new BookError(full ? 'full' : meaning, path, detail);
}

/** Whether temporary files lie on another disk than the book: on one disk, both have the same room. */
function temporaryLiesApart(path: string): boolean {
  const at = (folder: string) => statSync(folder, { throwIfNoEntry: false })?.dev;
  return at(tmpdir()) !== at(dirname(path));
}

/** Bytes free in a folder; endless where that cannot be told. */
export function roomIn(folder: string): number {
  if (!existsSync(folder)) return Infinity;
  const { bavail, bsize, blocks } = statfsSync(folder);
  return blocks > 0 ? bavail * bsize : Infinity;
}

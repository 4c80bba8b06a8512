/** Why a book cannot be opened, each with a way on. */
export type BookTroubleCode =
  'folder' | 'read-only' | 'damaged' | 'foreign' | 'newer' | 'locked' | 'migration' | 'backup' | 'missing';

/** Thrown by the book when the file itself is the matter. */
export class BookTrouble extends Error {
  readonly code: BookTroubleCode;
  readonly path: string;
  /** What the system said, for the log. */
  readonly detail: string;

  constructor(code: BookTroubleCode, path: string, detail = '') {
    super(`book ${code}: ${path}${detail ? ` (${detail})` : ''}`);
    this.name = 'BookTrouble';
    this.code = code;
    this.path = path;
    this.detail = detail;
  }
}

/** Names what SQLite refused, by its result code. */
export function bookTroubleOf(error: unknown, path: string): BookTrouble {
  if (error instanceof BookTrouble) return error;
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  const detail = error instanceof Error ? error.message : String(error);
  if (/^SQLITE_(BUSY|LOCKED)/.test(code)) return new BookTrouble('locked', path, detail);
  if (/^SQLITE_(READONLY|PERM)/.test(code) || /^E(ACCES|PERM|ROFS)$/.test(code))
    return new BookTrouble('read-only', path, detail);
  if (/^SQLITE_CANTOPEN/.test(code)) return new BookTrouble('folder', path, detail);
  if (/^SQLITE_NOTADB/.test(code)) return new BookTrouble('foreign', path, detail);
  if (/^SQLITE_(CORRUPT|IOERR)/.test(code)) return new BookTrouble('damaged', path, detail);
  if (/^E[A-Z]+$/.test(code)) return new BookTrouble('folder', path, detail);
  return new BookTrouble('damaged', path, detail);
}

/** Distinguishes a lost book from a first start. */
import { closeSync, existsSync, openSync, readSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { backupFolder, backupsIn } from './backup.ts';
import { listSetAside } from './books-aside.ts';
import { BookError } from './book-error.ts';

/**
 * Offsets of the header and of the schema page's header in "Database File Format",
 * https://www.sqlite.org/fileformat2.html.
 */
const VERSION_AT = 60;
const APPLICATION_AT = 68;
const OBJECTS_AT = 103;
const HEAD = 108;

/**
 * If backups exist, there was a book: an absent or empty file is then a loss, not a first start.
 * @throws BookError `missing`, or `damaged` for an empty file
 */
export function expectBook(path: string): void {
  const there = existsSync(path);
  if (there && !holdsNothing(path)) return;
  if (listSetAside(path).length === 0 && !hadBackups(path)) return;
  throw new BookError(there ? 'damaged' : 'missing', path);
}

/** Whether a file has no length, or is a database without any content. */
function holdsNothing(path: string): boolean {
  const found = statSync(path);
  // Other file types are reported on opening.
  if (!found.isFile()) return false;
  if (found.size === 0) return true;
  // With a log beside it the file alone is inconclusive.
  if (existsSync(`${path}-wal`)) return false;
  const head = Buffer.alloc(HEAD);
  const file = openSync(path, 'r');
  try {
    if (readSync(file, head, 0, HEAD, 0) < HEAD || !head.toString('latin1').startsWith('SQLite format 3'))
      return false;
  } finally {
    closeSync(file);
  }
  return (
    head.readUInt32BE(VERSION_AT) === 0 &&
    head.readUInt32BE(APPLICATION_AT) === 0 &&
    head.readUInt16BE(OBJECTS_AT) === 0
  );
}

/** Also true where the folder of backups exists but cannot be read. */
function hadBackups(path: string): boolean {
  // The parent is not a folder, so it never had backups; opening reports it.
  if (existsSync(dirname(path)) && !statSync(dirname(path)).isDirectory()) return false;
  try {
    return backupsIn(path, backupFolder(path)).length > 0;
  } catch {
    return true;
  }
}

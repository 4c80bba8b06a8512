/** The way back: a backup takes the book's place, and the book that lay there is kept under another name. */
import { existsSync, lstatSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import type Database from 'better-sqlite3';
import { checkCopy, type BackupContents } from './backup-check.ts';
import { ENDINGS, setAside, type Source } from './books-aside.ts';
import { wrongTime } from './check-moments.ts';
import { syncFile, syncFolder } from './durable-files.ts';
import { unlockFile, type Lock } from './locked-file.ts';
import type { MendedTime } from './mend-times.ts';
import { checkBuilt, closeBook, openBook } from './open.ts';
import { openFile } from './open-file.ts';
import { createPartial, partialPath, removePartial } from './partial-files.ts';
import { copyPrivately } from './private-files.ts';
import { copyRecords } from './records-only.ts';
import { BookError, bookErrorOf, roomIn } from './book-error.ts';

/** How a backup is to be opened. */
export interface Opening {
  /** The passphrase of a locked one, or the lock that it was made with. */
  opener?: string | Lock | undefined;
  /** Takes its records over into a clean book, and leaves out everything else that was built into it. */
  recordsOnly?: boolean;
  /** With `recordsOnly`, is told where a moment or day was none and was mended. */
  onMended?: (mended: MendedTime[]) => void;
}

/**
 * Does with a copy of a backup all that restoring and opening it would do, migrations included, and says what is in it.
 * Nothing is changed.
 * @param alsoTry what else is done with the copy, a book of today's version then
 * @throws BookError `backup`, `altered`, `times`, `misfit`, `newer`, `passphrase`
 */
export function tryBackup(
  bookPath: string,
  source: Source,
  now: Date,
  opening: Opening = {},
  alsoTry: (path: string) => void = () => undefined,
): BackupContents {
  const part = partialPath(bookPath);
  try {
    const held = unpack(part, source, now, opening);
    closeBook(openBook(part, now, true));
    alsoTry(part);
    return held;
  } catch (error) {
    throw troubleOfSource(error, source.path);
  } finally {
    removePartial(part);
  }
}

/**
 * Puts a copy of `source` in the place of the closed book. The file that lay there is renamed, never deleted:
 * `shop.gambrel set aside 2026-11-25T10-00-00`. Until the copy is checked and on disk, nothing is touched; a power
 * cut between the two renames leaves no book but both files, and the next start offers them.
 * @returns where the replaced book lies, or null if there was none
 * @throws BookError `locked` when another program has the book open, else as `tryBackup`
 */
export function restoreBackup(
  bookPath: string,
  source: Source,
  now: Date,
  opening: Opening = {},
): string | null {
  refuseIfOpenElsewhere(bookPath);
  const part = partialPath(bookPath);
  try {
    unpack(part, source, now, opening);
    syncFile(part);
    const aside = setAside(bookPath, now);
    renameSync(part, bookPath);
    syncFolder(dirname(bookPath));
    return aside;
  } catch (error) {
    removePartial(part);
    throw troubleOfSource(error, source.path);
  }
}

/** Undoes `restoreBackup`: the restored copy goes, the book that was set aside returns. */
export function undoRestore(bookPath: string, aside: string | null): void {
  removeAll(bookPath);
  if (aside === null) return;
  for (const ending of ENDINGS) if (existsSync(aside + ending)) renameSync(aside + ending, bookPath + ending);
  syncFolder(dirname(bookPath));
}

/** Makes the plain, checked copy `part` of a source. */
function unpack(
  part: string,
  source: Source,
  now: Date,
  { opener, recordsOnly = false, onMended }: Opening,
): BackupContents {
  if (!statSync(source.path).isFile()) throw new BookError('backup', source.path, 'no file');
  refuseWithoutRoom(part, source.path);
  if (source.locked) {
    if (opener === undefined || opener === '') throw new BookError('passphrase', source.path);
    unlockFile(source.path, part, opener);
  } else {
    copyPrivately(source.path, part);
    const log = `${source.path}-wal`;
    const found = lstatSync(log, { throwIfNoEntry: false });
    if (found && !found.isFile()) throw new BookError('backup', source.path, 'its log is no file');
    if (found) copyPrivately(log, `${part}-wal`);
    checkpointLog(part);
  }
  if (recordsOnly) {
    const mended = keepRecordsOnly(part, now);
    onMended?.(mended);
  }
  checkBuiltAsOurs(part);
  const held = checkCopy(part, null);
  checkTimes(part);
  return held;
}

/** A file that claims to be longer than the disk would fill it before anybody looked into it. */
function refuseWithoutRoom(part: string, source: string): void {
  if (statSync(source).size > roomIn(dirname(part))) throw new BookError('full', part, 'no room for a copy');
}

function keepRecordsOnly(part: string, now: Date): MendedTime[] {
  const clean = partialPath(part);
  try {
    createPartial(clean);
    const mended = copyRecords(part, clean, now);
    removePartial(part);
    renameSync(clean, part);
    return mended;
  } finally {
    removePartial(clean);
  }
}

/** A moment that is none would leave pages of the book broken that show it. Its records alone are taken over with mended ones. */
function checkTimes(part: string): void {
  const db = openFile(part, { readonly: true, fileMustExist: true });
  try {
    const wrong = wrongTime(db);
    if (wrong !== null) throw new BookError('times', part, `no moment or day in ${wrong}`);
  } finally {
    db.close();
  }
}

/** Looked at before anything is read through the schema. */
function checkBuiltAsOurs(part: string): void {
  const db = openFile(part, { readonly: true, fileMustExist: true });
  try {
    checkBuilt(db, part);
  } finally {
    db.close();
  }
}

/** Tells of the backup what was found in a copy of it. */
function troubleOfSource(error: unknown, source: string): BookError {
  const trouble = bookErrorOf(error, source);
  const { code, detail, difference } = trouble;
  if (code === 'altered' || code === 'times' || code === 'misfit' || code === 'newer')
    return new BookError(code, source, detail, difference);
  return code === 'foreign' || code === 'damaged' || code === 'migration'
    ? new BookError('backup', source, detail)
    : trouble;
}

/** A book set aside after a power cut has its newest entries in the log beside it; the copy becomes one file. */
function checkpointLog(part: string): void {
  const copy = openFile(part);
  try {
    copy.pragma('journal_mode = DELETE');
  } catch (error) {
    const { code, detail } = bookErrorOf(error, part);
    throw new BookError(code === 'full' || code === 'drive' ? code : 'backup', part, detail);
  } finally {
    copy.close();
  }
}

/** Renaming a file that another program has open would leave that program writing where nobody looks. */
function refuseIfOpenElsewhere(bookPath: string): void {
  if (!existsSync(bookPath)) return;
  let db: Database.Database | undefined;
  try {
    db = openFile(bookPath, { timeout: 200 });
    db.pragma('locking_mode = EXCLUSIVE');
    db.prepare('SELECT count(*) FROM sqlite_schema').get();
  } catch (error) {
    const trouble = bookErrorOf(error, bookPath);
    // A book that is being replaced may well be unreadable; the one thing that matters here is who holds it.
    if (trouble.code === 'locked') throw trouble;
  } finally {
    db?.close();
  }
}

function removeAll(path: string): void {
  for (const ending of ENDINGS) rmSync(path + ending, { force: true });
}

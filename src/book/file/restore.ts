/** Restores a backup in place of the book, and keeps the replaced book under another name. */
import { existsSync, lstatSync, renameSync, rmSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import type Database from 'better-sqlite3';
import { checkCopy, type BackupContents } from './backup-check.ts';
import { ENDINGS, setAside, type Source } from './books-aside.ts';
import { invalidTime } from './check-moments.ts';
import { syncFile, syncFolder } from './durable-files.ts';
import { unlockFile, type Lock } from './locked-file.ts';
import type { RepairedTime } from './repair-times.ts';
import { checkBuilt, closeBook, openBook } from './open.ts';
import { openFile } from './open-file.ts';
import { createPartial, partialPath, removePartial } from './partial-files.ts';
import { copyPrivately } from './private-files.ts';
import { copyRecords } from './records-only.ts';
import { BookError, bookErrorOf, freeBytes } from './book-error.ts';

/** How to open a backup. */
export interface Opening {
  /** The passphrase of a locked backup, or its lock. */
  opener?: string | Lock | undefined;
  /** Copies its records into a clean book, without any other schema objects. */
  recordsOnly?: boolean;
  /** With `recordsOnly`: receives the invalid dates and moments that were repaired. */
  onRepaired?: (repaired: RepairedTime[]) => void;
}

/**
 * Rehearses a restore on a copy of a backup, migrations included, and returns its contents. Nothing is changed.
 * @param alsoTry further work on the migrated copy
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
    const contents = unpack(part, source, now, opening);
    closeBook(openBook(part, now, true));
    alsoTry(part);
    return contents;
  } catch (error) {
    throw troubleOfSource(error, source.path);
  } finally {
    removePartial(part);
  }
}

/**
 * Replaces the closed book with a copy of `source`. The old file is renamed, never deleted: `shop.gambrel set aside
 * 2026-11-25T10-00-00`. Nothing changes until the copy is verified and on disk. A power failure between the two
 * renames leaves no book but both files, which the next start offers.
 * @returns the path of the replaced book, or null if there was none
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

/** Undoes `restoreBackup`: deletes the restored copy and renames the replaced book back. */
export function undoRestore(bookPath: string, aside: string | null): void {
  removeAll(bookPath);
  if (aside === null) return;
  for (const ending of ENDINGS) if (existsSync(aside + ending)) renameSync(aside + ending, bookPath + ending);
  syncFolder(dirname(bookPath));
}

/** Creates the plain, verified copy `part` of a source. */
function unpack(
  part: string,
  source: Source,
  now: Date,
  { opener, recordsOnly = false, onRepaired }: Opening,
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
    const repaired = keepRecordsOnly(part, now);
    onRepaired?.(repaired);
  }
  checkBuiltAsOurs(part);
  const contents = checkCopy(part, null);
  checkTimes(part);
  return contents;
}

/** A file that claims more than the free space would fill the disk before its check. */
function refuseWithoutRoom(part: string, source: string): void {
  if (statSync(source).size > freeBytes(dirname(part)))
    throw new BookError('full', part, 'no room for a copy');
}

function keepRecordsOnly(part: string, now: Date): RepairedTime[] {
  const clean = partialPath(part);
  try {
    createPartial(clean);
    const repaired = copyRecords(part, clean, now);
    removePartial(part);
    renameSync(clean, part);
    return repaired;
  } finally {
    removePartial(clean);
  }
}

/** An invalid moment would break pages that show it. `recordsOnly` copies such records with repaired ones. */
function checkTimes(part: string): void {
  const db = openFile(part, { readonly: true, fileMustExist: true });
  try {
    const wrong = invalidTime(db);
    if (wrong !== null) throw new BookError('times', part, `no moment or day in ${wrong}`);
  } finally {
    db.close();
  }
}

/** Checked before anything is read through the schema. */
function checkBuiltAsOurs(part: string): void {
  const db = openFile(part, { readonly: true, fileMustExist: true });
  try {
    checkBuilt(db, part);
  } finally {
    db.close();
  }
}

/** Reports an error found in the copy as one of the backup. */
function troubleOfSource(error: unknown, source: string): BookError {
  const trouble = bookErrorOf(error, source);
  const { code, detail, difference } = trouble;
  if (code === 'altered' || code === 'times' || code === 'misfit' || code === 'newer')
    return new BookError(code, source, detail, difference);
  return code === 'foreign' || code === 'damaged' || code === 'migration'
    ? new BookError('backup', source, detail)
    : trouble;
}

/** A book replaced after a power failure has its newest entries in its log; the copy becomes a single file. */
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

/** If another program has the file open, renaming it would leave that program writing to the renamed file. */
function refuseIfOpenElsewhere(bookPath: string): void {
  if (!existsSync(bookPath)) return;
  let db: Database.Database | undefined;
  try {
    db = openFile(bookPath, { timeout: 200 });
    db.pragma('locking_mode = EXCLUSIVE');
    db.prepare('SELECT count(*) FROM sqlite_schema').get();
  } catch (error) {
    const trouble = bookErrorOf(error, bookPath);
    // The replaced book may be unreadable; only whether it is in use matters here.
    if (trouble.code === 'locked') throw trouble;
  } finally {
    db?.close();
  }
}

function removeAll(path: string): void {
  for (const ending of ENDINGS) rmSync(path + ending, { force: true });
}

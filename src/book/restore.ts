/** The way back: a backup takes the book's place, and the book that lay there is kept under another name. */
import { existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { checkCopy, type Holdings } from './backup-check.ts';
import { flush, flushFolder, momentInName } from './durable-files.ts';
import { unlockFile, type Lock } from './locked-file.ts';
import { copyPrivately } from './private-files.ts';
import { breakSeal } from './seal.ts';
import { BookTrouble, bookTroubleOf } from './trouble.ts';

/** The book's own file and what SQLite may have left beside it. */
export const ENDINGS = ['', '-wal', '-shm'];
const ASIDE = /^ set aside (\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)(?: \(\d+\))?$/;

/** A backup, or a book that was set aside. */
export interface Source {
  path: string;
  locked: boolean;
}

/** A book that a restored one replaced. */
export interface SetAside extends Source {
  /** UTC moment at which it was set aside. */
  at: string;
  bytes: number;
}

/** Books that were set aside, newest first. */
export function listSetAside(bookPath: string): SetAside[] {
  const folder = dirname(bookPath);
  const start = basename(bookPath);
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => name.startsWith(start))
    .flatMap((name) => {
      const [, day, hour, minute, second] = ASIDE.exec(name.slice(start.length)) ?? [];
      if (!day) return [];
      const path = join(folder, name);
      return [{ path, locked: false, at: `${day}T${hour}:${minute}:${second}Z`, bytes: statSync(path).size }];
    })
    .sort((a, b) => (a.path < b.path ? 1 : -1));
}

/**
 * Opens a backup as restoring it would, and says what is in it. Nothing is changed.
 * @throws BookTrouble `backup`, `newer`, `passphrase`
 */
export function tryBackup(bookPath: string, source: Source, opener?: string | Lock): Holdings {
  const part = `${bookPath}.rehearsal`;
  try {
    return layOut(part, source, opener);
  } catch (error) {
    throw bookTroubleOf(error, source.path);
  } finally {
    removeAll(part);
  }
}

/**
 * Puts a copy of `source` in the place of the closed book. The file that lay there is renamed, never deleted:
 * `shop.gambrel set aside 2026-11-25T10-00-00`. Until the copy is checked and on disk, nothing is touched; a power
 * cut between the two renames leaves no book but both files, and the next start offers them.
 * @returns where the replaced book lies, or null if there was none
 * @throws BookTrouble `locked` when another program has the book open, else as `tryBackup`
 */
export function restoreBackup(
  bookPath: string,
  source: Source,
  now: Date,
  opener?: string | Lock,
): string | null {
  refuseIfOpenElsewhere(bookPath);
  const part = `${bookPath}.part`;
  try {
    layOut(part, source, opener);
    flush(part);
    const aside = setAside(bookPath, now);
    renameSync(part, bookPath);
    flushFolder(dirname(bookPath));
    return aside;
  } catch (error) {
    removeAll(part);
    throw bookTroubleOf(error, source.path);
  }
}

/** Takes the closed book from its place and keeps it beside it. @returns its new path, or null if there was none */
export function setAside(bookPath: string, now: Date): string | null {
  breakSeal(bookPath);
  const start = `${bookPath} set aside ${momentInName(now)}`;
  let aside = start;
  for (let n = 2; existsSync(aside); n++) aside = `${start} (${n})`;
  const there = ENDINGS.filter((ending) => existsSync(bookPath + ending));
  for (const ending of there) renameSync(bookPath + ending, aside + ending);
  flushFolder(dirname(bookPath));
  return there.includes('') ? aside : null;
}

/** Undoes `restoreBackup`: the restored copy goes, the book that was set aside returns. */
export function takeBack(bookPath: string, aside: string | null): void {
  removeAll(bookPath);
  if (aside === null) return;
  for (const ending of ENDINGS) if (existsSync(aside + ending)) renameSync(aside + ending, bookPath + ending);
  flushFolder(dirname(bookPath));
}

/** Makes the plain, checked copy `part` of a source. */
function layOut(part: string, source: Source, opener?: string | Lock): Holdings {
  removeAll(part);
  if (source.locked) {
    if (opener === undefined || opener === '') throw new BookTrouble('passphrase', source.path);
    unlockFile(source.path, part, opener);
  } else {
    copyPrivately(source.path, part);
    if (existsSync(`${source.path}-wal`)) copyPrivately(`${source.path}-wal`, `${part}-wal`);
    takeInLog(part);
  }
  return checkCopy(part, null);
}

/** A book set aside after a power cut has its newest entries in the log beside it; the copy becomes one file. */
function takeInLog(part: string): void {
  const copy = new Database(part);
  try {
    copy.pragma('journal_mode = DELETE');
  } catch (error) {
    const { code, detail } = bookTroubleOf(error, part);
    throw new BookTrouble(code === 'full' || code === 'drive' ? code : 'backup', part, detail);
  } finally {
    copy.close();
  }
}

/** Renaming a file that another program has open would leave that program writing where nobody looks. */
function refuseIfOpenElsewhere(bookPath: string): void {
  if (!existsSync(bookPath)) return;
  let db: Database.Database | undefined;
  try {
    db = new Database(bookPath, { timeout: 200 });
    db.pragma('locking_mode = EXCLUSIVE');
    db.prepare('SELECT count(*) FROM sqlite_schema').get();
  } catch (error) {
    const trouble = bookTroubleOf(error, bookPath);
    // A book that is being replaced may well be unreadable; the one thing that matters here is who holds it.
    if (trouble.code === 'locked') throw trouble;
  } finally {
    db?.close();
  }
}

function removeAll(path: string): void {
  for (const ending of ENDINGS) rmSync(path + ending, { force: true });
}

import { lstatSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type Database from 'better-sqlite3';
import { checkCopy, totals } from './backup-check.ts';
import { backupsToDrop, type DatedBackup } from './backup-rotation.ts';
import { identityOf, inName } from './book-identity.ts';
import { syncFile, syncFolder, momentInName } from './durable-files.ts';
import { clearPartials, createPartial, partialPath, removePartial } from './partial-files.ts';
import { makeFolder } from './private-files.ts';
import { BookError, bookErrorOf } from './book-error.ts';

/** A finished copy of the book. It is renamed into place only after verification. */
export interface Backup extends DatedBackup {
  path: string;
  bytes: number;
  /** Encrypted with a passphrase. */
  locked: boolean;
  /** The part of its book's identity in its name; null in older names. */
  book: string | null;
}

const MAX_TRIES = 5;
/** The fingerprint of the book at its last close, stored among the backups. */
export const SEAL = 'last closed.sha256';
export const LOCKED_ENDING = '.gambrel-locked';
const NAME =
  /^.*?(?: book-([0-9a-f]{8}))? (\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)( before version \d+)?(?: \(\d+\))?\.gambrel(-locked)?$/;

/** The folder of backups beside the book. */
export function backupFolder(bookPath: string): string {
  return join(dirname(bookPath), `${basename(bookPath, '.gambrel')} backups`);
}

/**
 * Copies the open book with `VACUUM INTO` to a partial file, opens the copy read-only, verifies it
 * (`integrity_check`, foreign keys, row counts, totals), flushes it to disk and only then renames it into place.
 * @param beforeVersion the target version of the coming migration
 * @throws BookError `full`, `backups` where it cannot be written, `backup` when the copy is not sound; the bad copy
 *   is deleted
 */
export function backUp(db: Database.Database, bookPath: string, at: Date, beforeVersion?: number): Backup {
  const folder = backupFolder(bookPath);
  const identity = identityOf(db);
  const whose = identity === null ? '' : ` book-${inName(identity)}`;
  const start = join(folder, `${basename(bookPath, '.gambrel')}${whose} ${momentInName(at)}`);
  const mark = beforeVersion === undefined ? '' : ` before version ${beforeVersion}`;
  try {
    refuseStrangeLink(folder);
    makeFolder(folder);
    const path = freePath(`${start}${mark}`, '.gambrel');
    finish(path, (part) => {
      copyWhole(db, part);
      syncFile(part);
    });
    return backupAt(path);
  } catch (error) {
    const { code, detail } = bookErrorOf(error, folder);
    throw UNUSABLE.includes(code) ? new BookError('backups', folder, detail) : error;
  }
}

/** Error codes of a place where no file can be written. */
const UNUSABLE: readonly BookError['code'][] = ['read-only', 'folder', 'drive', 'link'];

/**
 * A link in place of the folder is followed only when this account owns it: another account could redirect the
 * shop's records into its own folder. Windows does not report the owner of a link.
 * @throws BookError `link`
 */
export function refuseStrangeLink(folder: string): void {
  const found = lstatSync(folder, { throwIfNoEntry: false });
  if (found?.isSymbolicLink() && !(process.getuid && [0, process.getuid()].includes(found.uid)))
    throw new BookError('link', folder);
}

/**
 * Another connection may write between counting and copying, so the book is counted again afterwards: the copy must
 * lie between the two. Totals that rose and fell meanwhile are inconclusive, and the copy is repeated.
 */
function copyWhole(db: Database.Database, part: string, tries = MAX_TRIES): void {
  const version = (): unknown => db.pragma('data_version', { simple: true });
  const at = version();
  const before = totals(db);
  createPartial(part);
  db.prepare('VACUUM INTO ?').run(part);
  const written = version() !== at;
  try {
    checkCopy(part, before, written ? totals(db) : before);
  } catch (error) {
    if (!written || tries <= 1) throw error;
    removePartial(part);
    copyWhole(db, part, tries - 1);
  }
}

/** A path that does not exist yet. */
export function freePath(start: string, ending: string): string {
  let path = start + ending;
  for (let n = 2; lstatSync(path, { throwIfNoEntry: false }); n++) path = `${start} (${n})${ending}`;
  return path;
}

/**
 * Lets `write` make a verified partial file, then renames it to `path`. An existing file is replaced; a link is not
 * followed.
 * @throws BookError; the partial file is deleted
 */
export function finish(path: string, write: (part: string) => void): void {
  const part = partialPath(path);
  try {
    write(part);
    renameSync(part, path);
    syncFolder(dirname(path));
  } catch (error) {
    removePartial(part);
    const trouble = bookErrorOf(error, path);
    throw ['full', 'read-only', 'folder', 'drive', 'backup'].includes(trouble.code)
      ? trouble
      : new BookError('backup', path, trouble.detail);
  }
}

/**
 * Finished backups of a book, newest first; in another folder than its own, those of every book. None if the folder
 * cannot be read: `backupsIn` reports why.
 */
export function listBackups(bookPath: string, folder = backupFolder(bookPath)): Backup[] {
  try {
    return backupsIn(bookPath, folder);
  } catch {
    return [];
  }
}

/** The same. @throws BookError why the folder cannot be read; a missing folder has no backups */
export function backupsIn(bookPath: string, folder: string): Backup[] {
  try {
    const start = folder === backupFolder(bookPath) ? `${basename(bookPath, '.gambrel')} ` : '';
    return namesIn(folder)
      .filter((name) => name.startsWith(start) && isBackupName(name))
      .sort((a, b) => (momentOf(a) < momentOf(b) || (momentOf(a) === momentOf(b) && a < b) ? 1 : -1))
      .map((name) => join(folder, name))
      .filter((path) => lstatSync(path, { throwIfNoEntry: false })?.isFile())
      .map((path) => backupAt(path));
  } catch (error) {
    throw bookErrorOf(error, folder);
  }
}

/** Removes partial files left by interrupted backups and restores of this book. */
export function clearOwnPartials(bookPath: string): void {
  const own = basename(bookPath);
  clearPartials(dirname(bookPath), (name) => name === own);
  const start = `${basename(bookPath, '.gambrel')} `;
  clearPartials(
    backupFolder(bookPath),
    (name) => name === SEAL || (name.startsWith(start) && isBackupName(name)),
  );
}

/** Whether a file name is that of a backup. */
export function isBackupName(name: string): boolean {
  return NAME.test(name);
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') return [];
    throw error;
  }
}

/**
 * Deletes the backups in one folder that the rotation rule releases.
 * @param own filters backups to those of the book, because others may lie there too. It opens files, so it is
 *   called only when the rule would release one.
 */
export function thinBackups(
  backups: readonly Backup[],
  made: Backup,
  own: (backups: readonly Backup[]) => readonly Backup[],
): void {
  const known = backups.find(({ path }) => path === made.path);
  if (backupsToDrop(backups, known).length === 0) return;
  for (const { path } of backupsToDrop(own(backups), known)) rmSync(path, { force: true });
}

/** The backup at `path`, with its moment parsed from the name. */
export function backupAt(path: string): Backup {
  const found = NAME.exec(basename(path));
  return {
    path,
    at: momentOf(basename(path)),
    bytes: statSync(path).size,
    locked: path.endsWith(LOCKED_ENDING),
    beforeUpdate: found?.[6] !== undefined,
    book: found?.[1] ?? null,
  };
}

function momentOf(name: string): string {
  const [, , day, hour, minute, second] = NAME.exec(name) ?? [];
  return `${day}T${hour}:${minute}:${second}Z`;
}

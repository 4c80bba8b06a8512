import { existsSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type Database from 'better-sqlite3';
import { checkCopy, totals } from './backup-check.ts';
import { backupsToDrop, type Kept } from './backup-rotation.ts';
import { identityOf, inName } from './book-identity.ts';
import { flush, flushFolder, momentInName } from './durable-files.ts';
import { keepPrivate, makeFolder } from './private-files.ts';
import { BookTrouble, bookTroubleOf } from './trouble.ts';

/** A finished copy of the book. It was checked before it got its name. */
export interface Backup extends Kept {
  path: string;
  bytes: number;
  /** Opens only with its passphrase. */
  locked: boolean;
  /** The part of its book's identity that its name tells; null in names from before. */
  book: string | null;
}

const MOST_TRIES = 5;
export const LOCKED_ENDING = '.gambrel-locked';
const NAME =
  /^.*?(?: book-([0-9a-f]{8}))? (\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)( before version \d+)?(?: \(\d+\))?\.gambrel(-locked)?$/;

/** Backups lie beside the book in a folder of their own. */
export function backupFolder(bookPath: string): string {
  return join(dirname(bookPath), `${basename(bookPath, '.gambrel')} backups`);
}

/**
 * Copies the open book with `VACUUM INTO` to a `.part` file, opens the copy read-only, checks it whole
 * (`integrity_check`, foreign keys, row counts, totals), flushes it to disk and only then gives it its name.
 * @param beforeVersion the version that the book is about to be brought to
 * @throws BookTrouble `full`, `read-only` or `folder` where it cannot be written, `backup` when the copy is not as
 *   good as the book; the bad copy is removed
 */
export function backUp(db: Database.Database, bookPath: string, at: Date, beforeVersion?: number): Backup {
  const folder = backupFolder(bookPath);
  const identity = identityOf(db);
  const whose = identity === null ? '' : ` book-${inName(identity)}`;
  const start = join(folder, `${basename(bookPath, '.gambrel')}${whose} ${momentInName(at)}`);
  const mark = beforeVersion === undefined ? '' : ` before version ${beforeVersion}`;
  const path = freePath(`${start}${mark}`, '.gambrel');
  finish(path, (part) => {
    makeFolder(folder);
    copyWhole(db, part);
    flush(part);
  });
  return backupAt(path);
}

/**
 * Another connection may write between counting the book and copying it, so it is counted again afterwards: the copy must
 * lie between the two. Figures that went up and down meanwhile say nothing, and the copy is made again.
 */
function copyWhole(db: Database.Database, part: string, tries = MOST_TRIES): void {
  const version = (): unknown => db.pragma('data_version', { simple: true });
  const at = version();
  const before = totals(db);
  db.prepare('VACUUM INTO ?').run(part);
  keepPrivate(part);
  const written = version() !== at;
  try {
    checkCopy(part, before, written ? totals(db) : before);
  } catch (error) {
    if (!written || tries <= 1) throw error;
    rmSync(part, { force: true });
    copyWhole(db, part, tries - 1);
  }
}

/** A path that no file has yet. */
export function freePath(start: string, ending: string): string {
  let path = start + ending;
  for (let n = 2; existsSync(path); n++) path = `${start} (${n})${ending}`;
  return path;
}

/**
 * Has `write` make a whole, checked `.part` file and then gives it the name `path`.
 * @throws BookTrouble; what was half written is removed
 */
export function finish(path: string, write: (part: string) => void): void {
  const part = `${path}.part`;
  try {
    rmSync(part, { force: true });
    write(part);
    renameSync(part, path);
    flushFolder(dirname(path));
  } catch (error) {
    if (existsSync(part)) rmSync(part, { force: true });
    const trouble = bookTroubleOf(error, path);
    throw ['full', 'read-only', 'folder', 'drive', 'backup'].includes(trouble.code)
      ? trouble
      : new BookTrouble('backup', path, trouble.detail);
  }
}

/** Finished backups of a book, newest first; every book's in another folder than its own. */
export function listBackups(bookPath: string, folder = backupFolder(bookPath)): Backup[] {
  if (!existsSync(folder)) return [];
  const start = folder === backupFolder(bookPath) ? `${basename(bookPath, '.gambrel')} ` : '';
  return readdirSync(folder)
    .filter((name) => name.startsWith(start) && NAME.test(name))
    .sort((a, b) => (momentOf(a) < momentOf(b) || (momentOf(a) === momentOf(b) && a < b) ? 1 : -1))
    .map((name) => backupAt(join(folder, name)));
}

/**
 * Deletes the backups that the rule lets go, of those that lie together in one folder.
 * @param own narrows backups to those of the book; others may lie there as well. It looks into files, so it is asked
 *   only when the rule would let one go.
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

/** The backup at `path`, whose name says when it was made. */
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

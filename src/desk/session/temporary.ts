/**
 * Folders for what is only on its way: files handed in and out, the demo. They hold personal details, so they go as
 * soon as they were used, when the program ends, and, after a run that was cut short, at the next start.
 */
import { lstatSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { runs } from '../../book/file/partial-files.ts';
import { BookError, bookErrorOf } from '../../book/file/book-error.ts';
import { ProblemError } from '../contract/problem.ts';

const KINDS = ['out', 'file', 'fill', 'demo'] as const;
/** `gambrel-out-<process>-XXXXXX`; earlier versions left the process out. */
const NAME = new RegExp(`^gambrel-(?:${KINDS.join('|')})-(?:(\\d+)-)?[A-Za-z0-9]{6}$`);
/** Windows refuses to remove a file for a moment after it was closed, while its virus scanner reads it. */
const REMOVING = { recursive: true, force: true, maxRetries: 5, retryDelay: 100 };
/** A folder that tells no process may be in use by an earlier version that runs beside this one. */
const DAY_MS = 24 * 60 * 60_000;

/** Each folder with what it is for: an open book's room. */
const folders = new Map<string, object | null>();
process.once('exit', () => [...folders.keys()].forEach(tryRemoveTemporary));

/**
 * Makes a folder that goes at the latest with the process.
 * @param owner what it is for: `dropTemporariesOf` takes it away with that
 * @throws ProblemError `temporary.full`, `temporary.folder`
 */
export function temporaryFolder(kind: (typeof KINDS)[number], owner: object | null = null): string {
  const folder = withTemporary(() => mkdtempSync(join(tmpdir(), `gambrel-${kind}-${process.pid}-`)));
  folders.set(folder, owner);
  return folder;
}

/** Leaves a folder to another thread of this process, which takes it over with `adoptTemporary`. */
export function releaseTemporary(folder: string): void {
  folders.delete(folder);
}

export function adoptTemporary(folder: string, owner: object): void {
  folders.set(folder, owner);
}

/** Removes a folder, trying again for a second and a half. @throws Error when a file in it stays in use */
export function removeTemporary(folder: string): void {
  rmSync(folder, REMOVING);
  folders.delete(folder);
}

/** Removes a folder, or leaves it to the end of the process and to the next start. */
export function tryRemoveTemporary(folder: string): void {
  try {
    removeTemporary(folder);
  } catch {
    // Windows removes no file that is open.
  }
}

/** Removes all folders of an owner; one that is just being written goes when that ends. */
export function removeTemporariesOf(owner: object): void {
  for (const [folder, of] of [...folders]) {
    if (of === owner) tryRemoveTemporary(folder);
  }
}

/**
 * Does something with temporary files; what their disk refuses is told by its own place, not as a trouble of the book.
 * @throws ProblemError `temporary.full`, `temporary.folder`
 */
export function withTemporary<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw temporaryTrouble(error);
  }
}

/** The same for what goes on for a while. */
export async function withTemporaryAsync<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw temporaryTrouble(error);
  }
}

/** What writing refuses; an error of reading is one of the book that is read meanwhile. */
const OF_WRITING = /^SQLITE_(FULL|READONLY|CANTOPEN|IOERR_(WRITE|FSYNC|DIR_FSYNC|TRUNCATE|SHM|ACCESS))/;

function temporaryTrouble(error: unknown): unknown {
  if (error instanceof BookError && error.code === 'addon') return error;
  const ofSystem = error instanceof Error && 'syscall' in error;
  const ofWriting = error instanceof Database.SqliteError && OF_WRITING.test(error.code);
  if (!ofSystem && !ofWriting && !(error instanceof BookError)) return error;
  const path = tmpdir();
  const { code } = bookErrorOf(error, join(path, 'file'));
  const full = code === 'full' || code === 'temporary';
  return new ProblemError('broken', full ? 'temporary.full' : 'temporary.folder', { with: { path } });
}

/** Removes what a run that was cut short left behind: folders of ours whose process is gone. */
export function clearLeftovers(now = Date.now()): void {
  const place = tmpdir();
  for (const name of namesIn(place)) {
    const found = NAME.exec(name);
    if (!found) continue;
    const folder = join(place, name);
    try {
      const { uid, mtimeMs, ...is } = statsOf(folder);
      const gone = found[1] === undefined ? now - mtimeMs > DAY_MS : !runs(Number(found[1]));
      // A link, or a folder of another account, is not ours to remove.
      if (is.folder && gone && (process.getuid === undefined || uid === process.getuid()))
        rmSync(folder, REMOVING);
    } catch {
      // In use after all, or gone by now: the next start looks again.
    }
  }
}

function statsOf(folder: string): { uid: number; mtimeMs: number; folder: boolean } {
  const stats = lstatSync(folder);
  return { uid: stats.uid, mtimeMs: stats.mtimeMs, folder: stats.isDirectory() };
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return []; // whoever needs a temporary file is told so then
  }
}

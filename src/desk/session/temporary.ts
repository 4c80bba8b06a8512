/**
 * Temporary folders for uploads, exports and the demo. They contain personal details, so they are deleted right
 * after use, when the program ends, and, after an interrupted run, at the next start.
 */
import { lstatSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { isRunning } from '../../book/file/partial-files.ts';
import { BookError, bookErrorOf } from '../../book/file/book-error.ts';
import { ProblemError } from '../contract/problem.ts';

const KINDS = ['out', 'file', 'fill', 'demo'] as const;
/** `gambrel-out-<process>-XXXXXX`; earlier versions omitted the process. */
const NAME = new RegExp(`^gambrel-(?:${KINDS.join('|')})-(?:(\\d+)-)?[A-Za-z0-9]{6}$`);
/** On Windows a file cannot be deleted briefly after closing, while the virus scanner reads it. */
const REMOVING = { recursive: true, force: true, maxRetries: 5, retryDelay: 100 };
/** A folder without a process in its name may be in use by an earlier version that is running. */
const DAY_MS = 24 * 60 * 60_000;

/** Each folder with its owner: the session of an open book. */
const folders = new Map<string, object | null>();
process.once('exit', () => [...folders.keys()].forEach(tryRemoveTemporary));

/**
 * Creates a folder that is deleted with the process at the latest.
 * @param owner `removeTemporariesOf` deletes the folder with it
 * @throws ProblemError `temporary.full`, `temporary.folder`
 */
export function temporaryFolder(kind: (typeof KINDS)[number], owner: object | null = null): string {
  const folder = withTemporary(() => mkdtempSync(join(tmpdir(), `gambrel-${kind}-${process.pid}-`)));
  folders.set(folder, owner);
  return folder;
}

/** Hands a folder to another thread of this process, which calls `adoptTemporary`. */
export function releaseTemporary(folder: string): void {
  folders.delete(folder);
}

export function adoptTemporary(folder: string, owner: object): void {
  folders.set(folder, owner);
}

/** Deletes a folder, with retries for a second and a half. @throws Error when a file in it stays in use */
export function removeTemporary(folder: string): void {
  rmSync(folder, REMOVING);
  folders.delete(folder);
}

/** Deletes a folder, or leaves it to the end of the process or the next start. */
export function tryRemoveTemporary(folder: string): void {
  try {
    removeTemporary(folder);
  } catch {
    // Windows cannot delete an open file.
  }
}

/** Deletes all folders of an owner; one that is being written is deleted afterwards. */
export function removeTemporariesOf(owner: object): void {
  for (const [folder, of] of [...folders]) {
    if (of === owner) tryRemoveTemporary(folder);
  }
}

/**
 * Runs work on temporary files; a disk error is reported as one of the temporary folder, not of the book.
 * @throws ProblemError `temporary.full`, `temporary.folder`
 */
export function withTemporary<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw temporaryTrouble(error);
  }
}

/** The same for asynchronous work. */
export async function withTemporaryAsync<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw temporaryTrouble(error);
  }
}

/** Write errors; a read error belongs to the book that is being read. */
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

/** Deletes leftovers of interrupted runs: our folders whose process has ended. */
export function clearLeftovers(now = Date.now()): void {
  const place = tmpdir();
  for (const name of namesIn(place)) {
    const found = NAME.exec(name);
    if (!found) continue;
    const folder = join(place, name);
    try {
      const { uid, mtimeMs, ...is } = statsOf(folder);
      const gone = found[1] === undefined ? now - mtimeMs > DAY_MS : !isRunning(Number(found[1]));
      // Links and folders of other accounts are not ours to delete.
      if (is.folder && gone && (process.getuid === undefined || uid === process.getuid()))
        rmSync(folder, REMOVING);
    } catch {
      // Still in use, or already deleted: the next start tries again.
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
    return []; // reported when a temporary file is needed
  }
}

/**
 * Files that are still being written. Their names are unpredictable, so that no prepared link can wait there, and
 * contain computer and process, so that leftovers of an interrupted run can be recognised and deleted.
 */
import { createHash, randomBytes } from 'node:crypto';
import { closeSync, lstatSync, openSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

/** Files that SQLite keeps beside a database. */
export const LOG_ENDINGS = ['-wal', '-shm', '-journal'] as const;
/** `<name>.<computer>-<process>-<random>.part`; earlier versions wrote `<name>.part` and `<name>.rehearsal`. */
const ENDING = /^(.+?)(?:\.([0-9a-f]{8})-(\d+)-[0-9a-f]{8})?\.(?:part|rehearsal)(?:-wal|-shm|-journal)?$/;
/** No write takes this long; processes of another computer cannot be checked. */
const DAY_MS = 24 * 60 * 60_000;
const COMPUTER = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);

/** A temporary name beside `path` for writing. */
export function partialPath(path: string): string {
  return `${path}.${COMPUTER}-${process.pid}-${randomBytes(4).toString('hex')}.part`;
}

/** Creates an empty file for this account only. @throws Error `EEXIST` if anything exists there, a link included */
export function createPartial(path: string): void {
  closeSync(openSync(path, 'wx', 0o600));
}

/**
 * Writes a file atomically. An existing file at `path` is replaced; a link there is not followed.
 * @throws Error of the system; no partial file is left
 */
export function replaceFile(path: string, bytes: string | Uint8Array): void {
  const part = partialPath(path);
  try {
    writeFileSync(part, bytes, { flag: 'wx', mode: 0o600 });
    renameSync(part, path);
  } catch (error) {
    rmSync(part, { force: true });
    throw error;
  }
}

/** Deletes a partial file and SQLite's files beside it. */
export function removePartial(path: string): void {
  for (const ending of ['', ...LOG_ENDINGS]) rmSync(path + ending, { force: true });
}

/**
 * Deletes partial files left in `folder` by interrupted runs: those whose process has ended, and those a day old
 * where that is unknown. Never throws: the next write there reports errors.
 * @param ours whether the finished file of this name would be one of this book
 */
export function clearPartials(folder: string, ours: (name: string) => boolean, now = Date.now()): void {
  let names: string[];
  try {
    names = readdirSync(folder);
  } catch {
    return;
  }
  for (const name of names) {
    const [, whole, computer, pid] = ENDING.exec(name) ?? [];
    if (whole === undefined || !ours(whole)) continue;
    const path = join(folder, name);
    try {
      const found = lstatSync(path);
      const gone = now - found.mtimeMs > DAY_MS || (computer === COMPUTER && !isRunning(Number(pid)));
      const mine = process.getuid === undefined || found.uid === process.getuid();
      if (gone && mine && (found.isFile() || found.isSymbolicLink())) rmSync(path);
    } catch {
      // Still in use, or already deleted: the next start tries again.
    }
  }
}

/** Whether a process of this computer is running. */
export function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

/**
 * Files that are still being written. Each has a name that nobody can foresee, so that no link can lie there waiting, and
 * that says which process of which computer writes it, so that what a run that was cut short left can be told and removed.
 */
import { createHash, randomBytes } from 'node:crypto';
import { closeSync, lstatSync, openSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';

/** What SQLite keeps beside a file. */
export const LOG_ENDINGS = ['-wal', '-shm', '-journal'] as const;
/** `<name>.<computer>-<process>-<random>.part`; earlier versions wrote `<name>.part` and `<name>.rehearsal`. */
const ENDING = /^(.+?)(?:\.([0-9a-f]{8})-(\d+)-[0-9a-f]{8})?\.(?:part|rehearsal)(?:-wal|-shm|-journal)?$/;
/** No file is written for so long; another computer's process cannot be asked. */
const DAY_MS = 24 * 60 * 60_000;
const COMPUTER = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);

/** A name beside `path` under which it can be written until it is whole. */
export function partialPath(path: string): string {
  return `${path}.${COMPUTER}-${process.pid}-${randomBytes(4).toString('hex')}.part`;
}

/** Makes an empty file for this account alone. @throws Error `EEXIST` where anything lies, a link included */
export function createPartial(path: string): void {
  closeSync(openSync(path, 'wx', 0o600));
}

/**
 * Writes a file whole or not at all. Whatever lies at `path` is replaced; a link there is not followed.
 * @throws Error of the system; nothing is left half written
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

/** Removes a part and what SQLite keeps beside it. */
export function removePartial(path: string): void {
  for (const ending of ['', ...LOG_ENDINGS]) rmSync(path + ending, { force: true });
}

/**
 * Removes from `folder` the parts that a run that was cut short left behind: those whose process is gone, and those a
 * day old where that cannot be told. Never throws: whoever writes there next is told what is wrong.
 * @param ours whether the file of this name, had it been finished, would be one of this book
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
      const gone = now - found.mtimeMs > DAY_MS || (computer === COMPUTER && !runs(Number(pid)));
      const mine = process.getuid === undefined || found.uid === process.getuid();
      if (gone && mine && (found.isFile() || found.isSymbolicLink())) rmSync(path);
    } catch {
      // In use after all, or gone by now: the next start looks again.
    }
  }
}

/** Whether a process of this computer is there. */
export function runs(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}

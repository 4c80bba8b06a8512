/**
 * A folder for the tests of one run: what they share, and their temporary files. It is removed when the run has ended.
 *
 * Where the computer has room in memory it lies there. The books of the tests are written with `synchronous=FULL`, and on a
 * disk the tests would wait for it longer than they compute.
 */
import { chmodSync, existsSync, globSync, mkdtempSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { freemem, tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { KEEPING_PLACE } from './kept-folder.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    runFolder: string;
  }
}

/** Linux keeps the files of this folder in memory. */
const IN_MEMORY = '/dev/shm';
/** Begins the name of an empty file, which ends with the number of a process. */
const PROGRAM = 'ends-with-run-';
/** Several times as much as the tests of a run have ever written at a time. */
const ROOM = 2 * 2 ** 30;

export function setup({ provide }: TestProject): () => void {
  const kept = tmpdir();
  const folder = mkdtempSync(join(hasRoomInMemory() ? IN_MEMORY : kept, 'gambrel-run-'));
  chmodSync(folder, 0o1777); // as any temporary folder: tests ask who can read a file in it
  process.env[KEEPING_PLACE] = kept;
  for (const name of ['TMPDIR', 'TEMP', 'TMP']) process.env[name] = folder;
  // A run starts the program a few hundred times; Node compiles it once.
  process.env.NODE_COMPILE_CACHE = join(folder, 'compiled');
  provide('runFolder', folder);
  return () => {
    for (const file of globSync(join(folder, `${PROGRAM}*`))) end(Number(file.split(PROGRAM).at(-1)));
    for (const one of [folder, ...globSync(`${folder}-*`)]) rmSync(one, { recursive: true, force: true });
  };
}

/** Ends a program when the run has ended: the worker that started it is killed before it could. */
export function endWithRun(pid: number | undefined): void {
  if (pid !== undefined) writeFileSync(join(tmpdir(), `${PROGRAM}${pid}`), '');
}

function end(pid: number): void {
  try {
    process.kill(pid);
  } catch (error) {
    // It ended before.
    if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error;
  }
}

function hasRoomInMemory(): boolean {
  if (!existsSync(IN_MEMORY)) return false;
  const { bavail, bsize } = statfsSync(IN_MEMORY);
  return Math.min(bavail * bsize, freemem()) > ROOM;
}

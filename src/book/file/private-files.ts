/**
 * Files of a book are for the account that keeps it: files 0600, folders 0700. Only what is ours is ever changed; a
 * folder that somebody else made, such as the root of a stick, stays as it is. Windows has no such modes: there a person's own
 * folder keeps the others out, and what lies elsewhere is told.
 */
import { chmodSync, closeSync, fstatSync, lstatSync, mkdirSync, openSync, readSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, resolve } from 'node:path';
import { syncFile, writeWhole } from './durable-files.ts';
import { isWithin } from './same-folder.ts';

/** The mode of a file of ours. */
export const PRIVATE = 0o600;
const PRIVATE_FOLDER = 0o700;
const GROUP_AND_OTHERS = 0o077;
const OTHERS_ENTER = 0o001;
const PIECE = 1 << 20;

/** Makes a folder and those above it that are missing, for this account alone. One that is there stays as it is. */
export function makeFolder(path: string): void {
  mkdirSync(path, { recursive: true, mode: PRIVATE_FOLDER });
}

/**
 * Keeps a file or a folder of ours to this account. What is not there, is a link, belongs to another account or lies where modes do
 * not stick stays as it is: `othersCanRead` tells.
 */
export function restrictToOwner(path: string): void {
  if (process.platform === 'win32') return;
  try {
    const stats = lstatSync(path);
    if ((stats.mode & GROUP_AND_OTHERS) === 0) return;
    if (stats.isDirectory()) chmodSync(path, PRIVATE_FOLDER);
    else if (stats.isFile()) chmodSync(path, PRIVATE);
  } catch {
    // Told by `othersCanRead`; a book that others can read is better than none.
  }
}

/** Copies a file to a new one that is private from its first byte, whatever the source is, and flushes it. */
export function copyPrivately(source: string, target: string): void {
  const from = openSync(source, 'r');
  try {
    const to = openSync(target, 'wx', PRIVATE);
    try {
      const piece = Buffer.alloc(Math.min(PIECE, Math.max(1, fstatSync(from).size)));
      for (let read; (read = readSync(from, piece, 0, piece.length, null)) > 0;)
        writeWhole(to, piece.subarray(0, read));
    } finally {
      closeSync(to);
    }
  } finally {
    closeSync(from);
  }
  syncFile(target);
}

/**
 * Whether other accounts of this computer can read a file: by its mode and those of the folders on the way to it.
 * False where there is no such file.
 */
export function othersCanRead(path: string): boolean {
  if (process.platform === 'win32') return !isWithin(path, homedir());
  try {
    if ((statSync(path).mode & GROUP_AND_OTHERS) === 0) return false;
    for (let at = dirname(resolve(path)); ; at = dirname(at)) {
      // Somebody's home on the way, or the place where the system puts this account's sticks.
      if ((statSync(at).mode & OTHERS_ENTER) === 0) return false;
      if (dirname(at) === at) return true;
    }
  } catch {
    return false;
  }
}

/**
 * Restricts a book's files to its account: files 0600, folders 0700. Only files of this program are changed; a
 * folder made by others, such as the root of a stick, is not. Windows has no such modes: the user's home folder is
 * private there, and files elsewhere are reported.
 */
import { chmodSync, closeSync, fstatSync, lstatSync, mkdirSync, openSync, readSync, statSync } from 'node:fs';
import { homedir } from 'node:os';
import { dirname, resolve } from 'node:path';
import { syncFile, writeFully } from './durable-files.ts';
import { isWithin } from './same-folder.ts';

/** The mode of this program's files. */
export const PRIVATE = 0o600;
const PRIVATE_FOLDER = 0o700;
const GROUP_AND_OTHERS = 0o077;
const OTHERS_ENTER = 0o001;
const PIECE = 1 << 20;

/** Creates a folder and its missing parents, for this account only. An existing one is not changed. */
export function makeFolder(path: string): void {
  mkdirSync(path, { recursive: true, mode: PRIVATE_FOLDER });
}

/**
 * Restricts a file or folder to this account. Missing files, links, files of other accounts, and file systems
 * without modes are skipped: `othersCanRead` reports them.
 */
export function restrictToOwner(path: string): void {
  if (process.platform === 'win32') return;
  try {
    const stats = lstatSync(path);
    if ((stats.mode & GROUP_AND_OTHERS) === 0) return;
    if (stats.isDirectory()) chmodSync(path, PRIVATE_FOLDER);
    else if (stats.isFile()) chmodSync(path, PRIVATE);
  } catch {
    // Reported by `othersCanRead`; a readable book is better than none.
  }
}

/** Copies a file to a new one that is private from its first byte, and flushes it. */
export function copyPrivately(source: string, target: string): void {
  const from = openSync(source, 'r');
  try {
    const to = openSync(target, 'wx', PRIVATE);
    try {
      const piece = Buffer.alloc(Math.min(PIECE, Math.max(1, fstatSync(from).size)));
      for (let read; (read = readSync(from, piece, 0, piece.length, null)) > 0;)
        writeFully(to, piece.subarray(0, read));
    } finally {
      closeSync(to);
    }
  } finally {
    closeSync(from);
  }
  syncFile(target);
}

/**
 * Whether other accounts of this computer can read a file: by its mode and those of its parent folders. False for a
 * missing file.
 */
export function othersCanRead(path: string): boolean {
  if (process.platform === 'win32') return !isWithin(path, homedir());
  try {
    if ((statSync(path).mode & GROUP_AND_OTHERS) === 0) return false;
    for (let at = dirname(resolve(path)); ; at = dirname(at)) {
      // A private parent, such as a home folder or the mount point of this account's sticks.
      if ((statSync(at).mode & OTHERS_ENTER) === 0) return false;
      if (dirname(at) === at) return true;
    }
  } catch {
    return false;
  }
}

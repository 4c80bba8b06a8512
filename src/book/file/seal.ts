/**
 * The fingerprint of the book's file at its last close. SQLite detects a broken page, but not a flipped bit inside
 * a weight; a changed file is therefore detected here before it is opened.
 */
import { createHash } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  existsSync,
  lstatSync,
  openSync,
  readFileSync,
  readSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { backupFolder, finish, SEAL } from './backup.ts';
import { syncFile, syncFolder } from './durable-files.ts';
import { PRIVATE } from './private-files.ts';

const PIECE = 1 << 20;
const LENGTH = 64;
const FINGERPRINT = /^[0-9a-f]{64}$/;

/** Stores the closed book's fingerprint, unless another program has the book open and its log exists. */
export function seal(bookPath: string): void {
  const path = sealOf(bookPath);
  if (!existsSync(bookPath) || hasLog(bookPath) || !isFolder(backupFolder(bookPath))) return;
  finish(path, (part) => {
    writeFileSync(part, fingerprint(bookPath), { flag: 'wx', mode: PRIVATE });
    syncFile(part);
  });
}

/** Whether the book is unchanged. Also true if unknown: no usable fingerprint, or a log of an interrupted run. */
export function sealHolds(bookPath: string): boolean {
  const noted = noteOf(bookPath);
  if (noted === null || !statSync(bookPath, { throwIfNoEntry: false })?.isFile() || hasLog(bookPath))
    return true;
  return noted === fingerprint(bookPath);
}

/** Deletes the fingerprint: the book is about to be written, or replaced. */
export function breakSeal(bookPath: string): void {
  if (noteOf(bookPath) === null) return;
  try {
    rmSync(sealOf(bookPath));
    syncFolder(backupFolder(bookPath));
  } catch {
    // An unreadable folder must not prevent opening the book. A fingerprint that remains fails at the next start,
    // which then asks whether to open the book as it is.
  }
}

/** The stored fingerprint, or null. One that could not be deleted would refer to an earlier close, so it is ignored. */
function noteOf(bookPath: string): string | null {
  const path = sealOf(bookPath);
  try {
    if (lstatSync(path, { throwIfNoEntry: false })?.size !== LENGTH) return null;
    accessSync(backupFolder(bookPath), constants.R_OK | constants.W_OK | constants.X_OK);
    const text = readFileSync(path, 'utf8');
    return FINGERPRINT.test(text) ? text : null;
  } catch {
    return null;
  }
}

function sealOf(bookPath: string): string {
  return join(backupFolder(bookPath), SEAL);
}

function isFolder(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isDirectory() ?? false;
}

function hasLog(bookPath: string): boolean {
  const log = `${bookPath}-wal`;
  return existsSync(log) && statSync(log).size > 0;
}

function fingerprint(path: string): string {
  const hash = createHash('sha256');
  const file = openSync(path, 'r');
  try {
    const piece = Buffer.alloc(PIECE);
    for (let read; (read = readSync(file, piece, 0, PIECE, null)) > 0;) hash.update(piece.subarray(0, read));
  } finally {
    closeSync(file);
  }
  return hash.digest('hex');
}

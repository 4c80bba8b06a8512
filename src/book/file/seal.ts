/**
 * What the book's file looked like when it was last closed. SQLite notices a broken page, but not a bit that turned
 * over inside a weight; a file that is not as it was left is therefore told apart here before it is opened.
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

/** Notes the closed book's fingerprint. Nothing is noted while another program has it open, whose log then lies beside it. */
export function seal(bookPath: string): void {
  const path = sealOf(bookPath);
  if (!existsSync(bookPath) || hasLog(bookPath) || !isFolder(backupFolder(bookPath))) return;
  finish(path, (part) => {
    writeFileSync(part, fingerprint(bookPath), { flag: 'wx', mode: PRIVATE });
    syncFile(part);
  });
}

/**
 * Whether the book is as it was left. True as well where that is not known: no note that can be read and taken away
 * again, or a log that tells of a run cut short.
 */
export function sealHolds(bookPath: string): boolean {
  const noted = noteOf(bookPath);
  if (noted === null || !statSync(bookPath, { throwIfNoEntry: false })?.isFile() || hasLog(bookPath))
    return true;
  return noted === fingerprint(bookPath);
}

/** Forgets the note: the book is about to be written, or another file takes its place. */
export function breakSeal(bookPath: string): void {
  if (noteOf(bookPath) === null) return;
  try {
    rmSync(sealOf(bookPath));
    syncFolder(backupFolder(bookPath));
  } catch {
    // A folder that gives nothing away must not keep the book shut. A note that stays is found wrong at the next start,
    // which then asks whether to open the book as it is.
  }
}

/** What was noted, or null. A note that could not be taken away would speak of an earlier closing, so it says nothing. */
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

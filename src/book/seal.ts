/**
 * What the book's file looked like when it was last closed. SQLite notices a broken page, but not a bit that turned
 * over inside a weight; a file that is not as it was left is therefore told apart here before it is opened.
 */
import { createHash } from 'node:crypto';
import {
  closeSync,
  existsSync,
  openSync,
  readFileSync,
  readSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { backupFolder, finish } from './backup.ts';
import { flush, flushFolder } from './durable-files.ts';
import { PRIVATE } from './private-files.ts';

const PIECE = 1 << 20;

/** Notes the closed book's fingerprint. Nothing is noted while another program has it open, whose log then lies beside it. */
export function seal(bookPath: string): void {
  const path = sealOf(bookPath);
  if (!existsSync(bookPath) || hasLog(bookPath) || !existsSync(backupFolder(bookPath))) return;
  finish(path, (part) => {
    writeFileSync(part, fingerprint(bookPath), { mode: PRIVATE });
    flush(part);
  });
}

/** Whether the book is as it was left. True as well where that is not known: no note, or a log that tells of a run cut short. */
export function sealHolds(bookPath: string): boolean {
  const path = sealOf(bookPath);
  if (!existsSync(path) || !existsSync(bookPath) || hasLog(bookPath)) return true;
  return readFileSync(path, 'utf8') === fingerprint(bookPath);
}

/** Forgets the note: the book is about to be written, or another file takes its place. */
export function breakSeal(bookPath: string): void {
  const path = sealOf(bookPath);
  if (!existsSync(path)) return;
  rmSync(path);
  flushFolder(backupFolder(bookPath));
}

function sealOf(bookPath: string): string {
  return join(backupFolder(bookPath), 'last closed.sha256');
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

/**
 * How far the book was sent, in a file beside it: with it the Shop says what waits before the server answers. Without it nothing is
 * lost, since the ledger itself knows. It is no part of the book, whose every change is sent.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { PRIVATE } from '../../book/file/private-files.ts';

const fileOf = (bookPath: string): string =>
  join(dirname(bookPath), `${basename(bookPath, '.gambrel')} ledger sent`);

/** The last change of a branch that is known to be sent; 0 where nothing is known. */
export function notedSent(bookPath: string, branch: number): number {
  const file = fileOf(bookPath);
  const [of, seq] = existsSync(file) ? readFileSync(file, 'utf8').split(' ').map(Number) : [];
  return of === branch && Number.isSafeInteger(seq) ? Number(seq) : 0;
}

export function noteSent(bookPath: string, branch: number, seq: number): void {
  writeFileSync(fileOf(bookPath), `${branch} ${seq}`, { mode: PRIVATE });
}

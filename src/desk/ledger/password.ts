/**
 * The password of the ledger: in a file beside the book that only this account can read, and never in the book, which is backed up,
 * copied and fed. A book that moves to another computer leaves it behind.
 */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { PRIVATE } from '../../book/file/private-files.ts';

const fileOf = (bookPath: string): string =>
  join(dirname(bookPath), `${basename(bookPath, '.gambrel')} ledger password`);

/** The kept password, or null. */
export function keptPassword(bookPath: string): string | null {
  const file = fileOf(bookPath);
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
}

export function keepPassword(bookPath: string, password: string): void {
  forgetPassword(bookPath); // a file that others could read keeps its mode
  writeFileSync(fileOf(bookPath), password, { mode: PRIVATE, flag: 'wx', flush: true });
}

export function forgetPassword(bookPath: string): void {
  rmSync(fileOf(bookPath), { force: true });
}

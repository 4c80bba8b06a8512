/**
 * What must not be in the book, which is backed up, copied and fed: in a file beside it that only this account can read. A book that
 * moves to another computer leaves it behind.
 */
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { PRIVATE } from '../../book/file/private-files.ts';

/** @param name ends the name of the file, e.g. `ledger password` */
export function secretFile(name: string) {
  const fileOf = (bookPath: string): string =>
    join(dirname(bookPath), `${basename(bookPath, '.gambrel')} ${name}`);
  const forget = (bookPath: string): void => rmSync(fileOf(bookPath), { force: true });
  return {
    /** The kept text, or null. */
    kept(bookPath: string): string | null {
      const file = fileOf(bookPath);
      return existsSync(file) ? readFileSync(file, 'utf8') : null;
    },
    keep(bookPath: string, secret: string): void {
      forget(bookPath); // a file that others could read keeps its mode
      writeFileSync(fileOf(bookPath), secret, { mode: PRIVATE, flag: 'wx', flush: true });
    },
    forget,
  };
}

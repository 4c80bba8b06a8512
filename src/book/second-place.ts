/** A copy of a backup in a second place: a USB stick, another drive, a folder on another computer. */
import { copyFileSync, existsSync, rmSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import Database from 'better-sqlite3';
import { backupAt, finish, listBackups, LOCKED_ENDING, thinBackups, type Backup } from './backup.ts';
import { checkCopy, totals } from './backup-check.ts';
import { flush } from './durable-files.ts';
import { lockFile, unlockFile, type Lock } from './locked-file.ts';
import { BookTrouble } from './trouble.ts';

/**
 * Puts a copy of the plain backup `made` into `folder`, encrypted if there is a lock, and rehearses what was
 * written there: read back, decrypted if need be, checked whole, counted. The folder itself is never made, for a
 * stick that is not plugged in would so become a folder on the same disk. Older copies there are thinned by the
 * same rule as beside the book.
 * @param lock the lock; `false` when the shop decided against one; null when it never decided: then a folder that
 *   has locked copies gets no plain one, for the book may come from a backup older than the passphrase
 * @throws BookTrouble `no-stick`, `full`, `read-only`, `backup`, or `unlocked` for the case just told
 */
export function copyToSecondPlace(
  made: Backup,
  bookPath: string,
  folder: string,
  lock: Lock | false | null,
): Backup {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) throw new BookTrouble('no-stick', folder);
  const there = listBackups(bookPath, folder);
  if (lock === null && there.some(({ locked }) => locked)) throw new BookTrouble('unlocked', folder);
  const path = join(folder, lock ? basename(made.path, '.gambrel') + LOCKED_ENDING : basename(made.path));
  const wanted = totalsOf(made.path);
  finish(path, (part) => {
    if (lock) {
      lockFile(made.path, part, lock);
      rehearseLocked(part, `${made.path}.rehearsal`, lock, wanted);
    } else {
      copyFileSync(made.path, part);
      flush(part);
      checkCopy(part, wanted);
    }
  });
  const copy = backupAt(path);
  thinBackups(listBackups(bookPath, folder), copy);
  return copy;
}

/** Decrypts beside the plain backup, never in the second place, where a plain copy must not even be for a moment. */
function rehearseLocked(locked: string, plain: string, lock: Lock, wanted: string): void {
  try {
    unlockFile(locked, plain, lock);
    checkCopy(plain, wanted);
  } finally {
    rmSync(plain, { force: true });
  }
}

function totalsOf(path: string): string {
  const db = new Database(path, { readonly: true, fileMustExist: true });
  try {
    return totals(db);
  } finally {
    db.close();
  }
}

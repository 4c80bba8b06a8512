/** Restricts the permissions of books from earlier versions or other places when they are opened. */
import { existsSync, realpathSync } from 'node:fs';
import { backupFolder, listBackups } from './backup.ts';
import { restrictToOwner } from './private-files.ts';
import { ENDINGS, listSetAside } from './books-aside.ts';

/** Keeps the file of a book and its logs to this account. The logs that SQLite makes later get the mode of the file. */
export function restrictBook(bookPath: string): void {
  const path = existsSync(bookPath) ? realpathSync(bookPath) : bookPath;
  for (const ending of ENDINGS) restrictToOwner(path + ending);
}

/** Keeps what lies beside a book to this account: its backups in their folder, and books that were set aside. */
export function restrictBackups(bookPath: string): void {
  restrictToOwner(backupFolder(bookPath));
  try {
    for (const { path } of listBackups(bookPath)) restrictToOwner(path);
    for (const { path } of listSetAside(bookPath)) restrictBook(path);
  } catch {
    // A folder that cannot be listed keeps no book from being opened; the next backup tells what is wrong with it.
  }
}

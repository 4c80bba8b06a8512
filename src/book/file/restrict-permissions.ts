/** Restricts the permissions of books from earlier versions or other places when they are opened. */
import { existsSync, realpathSync } from 'node:fs';
import { backupFolder, listBackups } from './backup.ts';
import { restrictToOwner } from './private-files.ts';
import { ENDINGS, listSetAside } from './books-aside.ts';

/** Restricts a book and its logs to this account. Later logs inherit the mode of the file. */
export function restrictBook(bookPath: string): void {
  const path = existsSync(bookPath) ? realpathSync(bookPath) : bookPath;
  for (const ending of ENDINGS) restrictToOwner(path + ending);
}

/** Restricts the files beside a book to this account: its backups and replaced books. */
export function restrictBackups(bookPath: string): void {
  restrictToOwner(backupFolder(bookPath));
  try {
    for (const { path } of listBackups(bookPath)) restrictToOwner(path);
    for (const { path } of listSetAside(bookPath)) restrictBook(path);
  } catch {
    // A folder that cannot be listed does not prevent opening the book; the next backup reports it.
  }
}

/** The way back when a book does not open: its newest good backup takes its place, and the book itself is kept. */
import { copyFileSync, existsSync, renameSync } from 'node:fs';
import { isGoodBackup, listBackups, type Backup } from '../src/book/backup.ts';

/** The newest backup of the book at `bookPath` that passes its check, or null. */
export function newestGoodBackup(bookPath: string): Backup | null {
  return listBackups(bookPath).find(({ path }) => isGoodBackup(path)) ?? null;
}

/**
 * Puts a copy of `backup` in the book's place. The old file (with what SQLite left beside it) is renamed, never
 * deleted: `shop.gambrel set aside 2026-11-25T10-00-00`.
 */
export function restoreBackup(bookPath: string, backup: Backup, now: Date): void {
  const copy = `${bookPath}.part`;
  copyFileSync(backup.path, copy);
  const aside = `${bookPath} set aside ${now.toISOString().slice(0, 19).replaceAll(':', '-')}`;
  for (const ending of ['', '-wal', '-shm']) {
    if (existsSync(bookPath + ending)) renameSync(bookPath + ending, aside + ending);
  }
  renameSync(copy, bookPath);
}

/** Copies a backup to a second place: a USB stick, another drive, a folder on another computer. */
import { existsSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import {
  backupAt,
  backupFolder,
  backupsIn,
  finish,
  freePath,
  isBackupName,
  listBackups,
  LOCKED_ENDING,
  thinBackups,
  type Backup,
} from './backup.ts';
import { checkCopy, totals } from './backup-check.ts';
import { mayBeOf, ownBackups, ownerOf, type Opener } from './backup-owner.ts';
import { labelOf } from './book-identity.ts';
import { lockFile, unlockFile, type Lock } from './locked-file.ts';
import { openFile } from './open-file.ts';
import { clearPartials, partialPath, removePartial } from './partial-files.ts';
import { copyPrivately, restrictToOwner } from './private-files.ts';
import { isWithin } from './same-folder.ts';
import { BookError, bookErrorOf } from './book-error.ts';

/**
 * Copies the plain backup `made` into `folder`, encrypted if there is a lock, and verifies the written file: read
 * back, decrypted if necessary, checked, counted. The folder itself is never created, because a missing stick would
 * become a folder on the same disk. Older copies of the same book are deleted by the same rule as beside the book;
 * other files are not touched.
 * @param lock the lock; `false` when the shop decided against one; null when it never decided: a folder that has
 *   locked copies of this book then gets no plain one, because the book may come from a backup older than the
 *   passphrase
 * @param keeping the path of a copy that is never deleted
 * @throws BookError `no-stick`, `same-place`, `full`, `read-only`, `backup`, or `unlocked` for the case above
 */
export function copyToSecondPlace(
  made: Backup,
  bookPath: string,
  folder: string,
  lock: Lock | false | null,
  keeping?: string,
): Backup {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) throw new BookError('no-stick', folder);
  refuseOwnFolder(bookPath, folder);
  if (made.book !== null)
    clearPartials(folder, (name) => isBackupName(name) && name.includes(` book-${made.book} `));
  const source = openFile(made.path, { readonly: true, fileMustExist: true });
  try {
    const label = labelOf(source);
    if (lock === null && hasLockedOf(bookPath, folder, made.book, label.book))
      throw new BookError('unlocked', folder);
    const path = freePath(join(folder, basename(made.path, '.gambrel')), lock ? LOCKED_ENDING : '.gambrel');
    const expected = totals(source);
    const scratch = partialPath(made.path);
    finish(path, (part) => {
      if (lock) {
        lockFile(made.path, part, lock, label);
        rehearseLocked(part, scratch, lock, expected);
      } else {
        copyPrivately(made.path, part);
        checkCopy(part, expected);
      }
    });
    const copy = backupAt(path);
    const opener: Opener | undefined = lock ? { lock, scratch } : undefined;
    const ours = listBackups(bookPath, folder).filter((one) => mayBeOf(one, label.book));
    for (const one of ours) restrictToOwner(one.path); // copies made by earlier versions
    const mayGo = ours.filter(({ path: there }) => there !== keeping);
    thinBackups(mayGo, copy, (backups) => ownBackups(source, label.book, backups, opener));
    return copy;
  } finally {
    source.close();
  }
}

/** A copy among the backups themselves would protect against nothing. @throws BookError `same-place` */
export function refuseOwnFolder(bookPath: string, folder: string): void {
  if (isWithin(folder, backupFolder(bookPath))) throw new BookError('same-place', folder);
}

/** Locked copies older than labels count as this book's when they carry its file name. */
function hasLockedOf(bookPath: string, folder: string, named: string | null, book: string | null): boolean {
  const start = `${basename(bookPath, '.gambrel')} `;
  return backupsIn(bookPath, folder).some((one) => {
    if (!one.locked) return false;
    const owner = ownerOf(one);
    if (owner) return owner.label.book === book;
    return one.book === null ? basename(one.path).startsWith(start) : one.book === named;
  });
}

/** Decrypts beside the plain backup, never in the second place, where no plain copy may exist even briefly. */
function rehearseLocked(locked: string, plain: string, lock: Lock, expected: string): void {
  try {
    unlockFile(locked, plain, lock);
    checkCopy(plain, expected);
  } catch (error) {
    // A full disk here does not mean that the copy there is bad.
    const trouble = bookErrorOf(error, plain);
    throw trouble.code === 'full' ? new BookError('full', plain, trouble.detail) : error;
  } finally {
    removePartial(plain);
  }
}

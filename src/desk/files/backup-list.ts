/** Lists the backups of a book: beside it, in the second place, and replaced books. */
import { backupFolder, backupsIn, listBackups, type Backup } from '../../book/file/backup.ts';
import { ownerOf } from '../../book/file/backup-owner.ts';
import { BookError, bookErrorOf } from '../../book/file/book-error.ts';
import { identityOf, inName } from '../../book/file/book-identity.ts';
import { listSetAside } from '../../book/file/books-aside.ts';
import { isWithin } from '../../book/file/same-folder.ts';
import { problemOfBookError } from '../contract/book-problems.ts';
import type { BackupRow } from '../contract/contract.ts';
import type { Problem } from '../contract/problem.ts';
import type { Door } from '../session/procedure.ts';
import { isBefore } from '../session/make-backup.ts';

export function placeOf({ session }: Door, folder: string): string {
  return folder || (session && !session.demo ? session.settings.secondBackupFolder : '');
}

export function rowsOf(at: Door, folder: string): BackupRow[] {
  const bookPath = at.session?.book.path ?? at.bookPath;
  const ownId = ownIdentity(at);
  const rows: BackupRow[] = [
    ...listBackups(bookPath).map((one) => rowOf(one, 'beside', ownId)),
    ...backupsAway(at, bookPath, folder).map((one) => rowOf(one, 'away', ownId)),
    ...listSetAside(bookPath).map((one) => ({
      ...one,
      place: 'set aside' as const,
      beforeUpdate: false,
      own: null,
      shop: '',
      holdsRemoved: false,
    })),
  ];
  const removedAt = removedAtOf(at);
  for (const row of rows) row.holdsRemoved = holdsRemovedDetails(row, removedAt);
  return rows.sort((a, b) => (a.at < b.at ? 1 : -1));
}

/** Whether it belongs to this book and is older than the last removal of personal details. */
export function holdsRemovedDetails(
  row: Pick<BackupRow, 'at' | 'own' | 'place'>,
  removedAt: string | null,
): boolean {
  return removedAt !== null && isBefore(row, removedAt) && (row.own === true || row.place === 'set aside');
}

/** Why folders that should have backups show none. */
export function unreadableOf(at: Door, folder: string): Problem[] {
  const bookPath = at.session?.book.path ?? at.bookPath;
  const beside = folderError(bookPath, backupFolder(bookPath));
  const away = placeOf(at, folder);
  const there = away && !isWithin(away, backupFolder(bookPath)) ? folderError(bookPath, away) : null;
  return [
    ...(beside ? [problemOfBookError(new BookError('backups', beside.path))] : []),
    ...(there ? [problemOfBookError(new BookError('no-list', away))] : []),
  ];
}

function folderError(bookPath: string, folder: string): BookError | null {
  try {
    backupsIn(bookPath, folder);
    return null;
  } catch (error) {
    return bookErrorOf(error, folder);
  }
}

function backupsAway(at: Door, bookPath: string, folder: string): Backup[] {
  const away = placeOf(at, folder);
  // Backups beside the book are already listed.
  return away && !isWithin(away, backupFolder(bookPath)) ? listBackups(bookPath, away) : [];
}

function rowOf(backup: Backup, place: 'beside' | 'away', ownId: string | null): BackupRow {
  const { path, at, bytes, locked, beforeUpdate, book } = backup;
  const row = { path, at, bytes, locked, beforeUpdate, place, holdsRemoved: false };
  if (ownId !== null && book === inName(ownId)) return { ...row, own: true, shop: '' };
  const owner = ownerOf(backup);
  const own = owner ? isOwnBook(owner.label.book, ownId) : ownId !== null && book !== null ? false : null;
  return { ...row, own, shop: own === true ? '' : (owner?.shop ?? '') };
}

export function removedAtOf({ session }: Door): string | null {
  return session && !session.demo ? session.book.removedDetails.lastRemoval() : null;
}

export function isOwnBook(book: string | null, ownId: string | null): boolean | null {
  return book === null || ownId === null ? null : book === ownId;
}

/** The identity of the open book; if it does not open, that of its newest backup. */
export function ownIdentity({ session, bookPath }: Door): string | null {
  if (session) return identityOf(session.book.db);
  for (const one of listBackups(bookPath)) {
    const owner = ownerOf(one);
    if (owner) return owner.label.book;
  }
  return null;
}

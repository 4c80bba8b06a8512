/** The files of photographs: which are missing, which belong to nothing, and their copies among backups. */
import { dirname } from 'node:path';
import type { Book } from '../../book/book.ts';
import { backupFolder } from '../../book/file/backup.ts';
import { identityOf } from '../../book/file/book-identity.ts';
import { listSetAside, type Source } from '../../book/file/books-aside.ts';
import { lockOf, readHeader, type Lock } from '../../book/file/locked-file.ts';
import { openFile } from '../../book/file/open-file.ts';
import { bringPhotosBack, copyPhotos, deleteCopies, photosCopied } from '../../book/file/photos/copies.ts';
import {
  clearPhotoPartials,
  deletePhoto,
  isOlder,
  photoFolder,
  photosIn,
} from '../../book/file/photos/files.ts';

/** A photograph whose entry never came is deleted after this long, ms: a station sends both together. Our choice, no source. */
const WAITS_MS = 24 * 60 * 60_000;

/** Digests of photographs of the book whose file is not in its folder. */
export function missingPhotos({ path, photographs }: Pick<Book, 'path' | 'photographs'>): string[] {
  if (!photographs.any()) return [];
  const there = photosIn(photoFolder(path));
  return photographs.digests().filter((digest) => !there.has(digest));
}

/**
 * Deletes files of photographs that were removed with a hunter's details, and those a day old that belong neither to this book nor
 * to one that a restored backup replaced: their entries never came.
 */
export function tidyPhotos(
  { path, photographs }: Pick<Book, 'path' | 'photographs'>,
  now = new Date(),
): void {
  const folder = photoFolder(path);
  const there = photosIn(folder);
  if (there.size === 0) return;
  clearPhotoPartials(folder);
  for (const digest of photographs.removedDigests()) if (there.delete(digest)) deletePhoto(folder, digest);
  for (const digest of photographs.digests()) there.delete(digest);
  const until = new Date(now.getTime() - WAITS_MS);
  const strays = [...there].filter((digest) => isOlder(folder, digest, until));
  if (strays.length === 0) return;
  const others = digestsSetAside(path);
  for (const digest of strays) if (others && !others.has(digest)) deletePhoto(folder, digest);
}

/** Digests in the books that were set aside; null if one of them cannot be read. */
function digestsSetAside(bookPath: string): Set<string> | null {
  const found = new Set<string>();
  try {
    for (const { path } of listSetAside(bookPath)) {
      const db = openFile(path, { readonly: true, fileMustExist: true });
      try {
        if (!db.prepare("SELECT 1 FROM sqlite_schema WHERE name = 'photograph'").get()) continue;
        for (const digest of db.prepare<[], string>('SELECT digest FROM photograph').pluck().all())
          found.add(digest);
      } finally {
        db.close();
      }
    }
    return found;
  } catch {
    return null;
  }
}

/**
 * Copies photographs among the backups in `folder`.
 * @throws BookError where they cannot be written
 */
export function copyPhotosTo({ db, path, photographs }: Book, folder: string, lock: Lock | null): void {
  const identity = identityOf(db);
  if (identity === null || !photographs.any()) return;
  copyPhotos({ photos: photoFolder(path), folder, identity, lock }, photographs.digests());
}

/** Deletes removed photographs from the copies among the backups in `folder`. */
export function deleteRemovedCopies({ db, photographs }: Book, folder: string): void {
  const identity = identityOf(db);
  const digests = photographs.removedDigests();
  if (identity !== null && digests.length > 0) deleteCopies(folder, identity, digests);
}

/** How many photographs of a backup, opened as `book`, lie neither beside it nor beside the book that it would replace. */
export function photosLacking(
  { db, photographs }: Pick<Book, 'db' | 'photographs'>,
  bookPath: string,
  source: Source,
): number {
  const identity = identityOf(db);
  if (identity === null || !photographs.any()) return 0;
  const salt = source.locked ? (readHeader(source.path)?.salt ?? '') : null;
  const copies = photosCopied(dirname(source.path), identity, salt === null ? null : { salt });
  const own = photosIn(photoFolder(bookPath));
  return photographs.digests().filter((digest) => !copies.has(digest) && !own.has(digest)).length;
}

/**
 * Brings back photographs of a book that was just restored from `source`: from beside it, else from beside the book's own backups.
 * What is in no place stays missing.
 */
export function restorePhotos(
  { db, path, photographs }: Book,
  source: Source,
  opener: string | Lock | undefined,
): void {
  const identity = identityOf(db);
  if (identity === null || !photographs.any()) return;
  const job = { photos: photoFolder(path), identity };
  const folder = dirname(source.path);
  const lock = source.locked ? lockFor(source.path, opener) : null;
  const now = new Date();
  const lacking = bringPhotosBack({ ...job, folder, lock }, photographs.digests(), now);
  if (lacking > 0)
    bringPhotosBack({ ...job, folder: backupFolder(path), lock: null }, photographs.digests(), now);
}

function lockFor(path: string, opener: string | Lock | undefined): Lock | null {
  if (typeof opener !== 'string') return opener ?? null;
  const salt = readHeader(path)?.salt;
  return salt === undefined ? null : lockOf(opener, salt);
}

/**
 * Copies of photographs among backups. A photograph never changes, so each is copied once and serves all backups of its book in
 * the folder: `photos book-3f79bb7b/ab/….jpg`, with a passphrase `photos book-3f79bb7b locked-9c01d2aa/ab/….jpg.gambrel-locked`.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { finish, LOCKED_ENDING } from '../backup.ts';
import { BookError } from '../book-error.ts';
import { inName } from '../book-identity.ts';
import { lockFile, unlockFile, type Lock } from '../locked-file.ts';
import { partialPath, removePartial } from '../partial-files.ts';
import { copyPrivately, makeFolder } from '../private-files.ts';
import { deletePhoto, digestOf, photoPath, photosIn, readPhoto, storePhoto } from './files.ts';

const LOCKED = `.jpg${LOCKED_ENDING}`;

/** The folder of copies among the backups of one book in `folder`. */
function copiesFolder(folder: string, identity: string, lock: Pick<Lock, 'salt'> | null): string {
  return join(folder, `photos book-${inName(identity)}${lock ? ` locked-${lock.salt.slice(0, 8)}` : ''}`);
}

/** The digests of all copies among the backups of one book in `folder`, by their names alone. */
export function photosCopied(folder: string, identity: string, lock: Pick<Lock, 'salt'> | null): Set<string> {
  return photosIn(copiesFolder(folder, identity, lock), lock ? LOCKED : '.jpg');
}

/** Where photographs come from, and among which backups they are copied. */
export interface CopyJob {
  /** The folder of photographs beside the book. */
  photos: string;
  /** The folder of backups, and the book's identity. */
  folder: string;
  identity: string;
  lock: Lock | null;
}

/**
 * Copies photographs that are not among the backups yet. Each copy is read back, unlocked where it is locked, and compared
 * with its digest before it gets its name. Photographs that are missing or altered beside the book are left out.
 * @throws BookError `full`, `read-only`, `folder`, `drive`, `backup`
 */
export function copyPhotos({ photos, folder, identity, lock }: CopyJob, digests: readonly string[]): void {
  const target = copiesFolder(folder, identity, lock);
  const ending = lock ? LOCKED : '.jpg';
  const there = photosCopied(folder, identity, lock);
  for (const digest of digests) {
    if (there.has(digest) || readPhoto(photos, digest).state !== 'here') continue;
    const path = photoPath(target, digest, ending);
    const plain = photoPath(photos, digest);
    makeFolder(dirname(path));
    finish(path, (part) => {
      if (lock) lockFile(plain, part, lock);
      else copyPrivately(plain, part);
      if (digestOf(lock ? unlocked(part, plain, lock) : readFileSync(part)) !== digest)
        throw new BookError('backup', path, 'differs from its digest');
    });
  }
}

/** The plain bytes of a locked file, by way of a file beside the photograph, never in the place of the copies. */
function unlocked(locked: string, beside: string, lock: Lock): Buffer {
  const plain = partialPath(beside);
  try {
    unlockFile(locked, plain, lock);
    return readFileSync(plain);
  } finally {
    removePartial(plain);
  }
}

/**
 * Brings back photographs that the book's folder lacks, or whose bytes changed there, from copies among backups.
 * @param job.lock that of the backup from which the book was restored; null for a plain one
 * @returns how many are lacking still
 */
export function bringPhotosBack(
  { photos, folder, identity, lock }: CopyJob,
  digests: readonly string[],
  now: Date,
): number {
  const source = copiesFolder(folder, identity, lock);
  let lacking = 0;
  for (const digest of digests) {
    if (readPhoto(photos, digest).state === 'here') continue;
    const bytes = copyOf(source, photos, digest, lock);
    if (bytes) storePhoto(photos, digest, bytes, now);
    else lacking += 1;
  }
  return lacking;
}

/** A sound copy of a photograph, or null. */
function copyOf(source: string, photos: string, digest: string, lock: Lock | null): Buffer | null {
  if (!lock) {
    const found = readPhoto(source, digest);
    return found.state === 'here' ? found.bytes : null;
  }
  const locked = photoPath(source, digest, LOCKED);
  if (!existsSync(locked)) return null;
  const beside = photoPath(photos, digest);
  makeFolder(dirname(beside));
  try {
    const bytes = unlocked(locked, beside, lock);
    return digestOf(bytes) === digest ? bytes : null;
  } catch (error) {
    if (error instanceof BookError && ['passphrase', 'backup'].includes(error.code)) return null;
    throw error;
  }
}

/** Deletes photographs from all copies of a book's among the backups in a folder, whatever locked them. */
export function deleteCopies(folder: string, identity: string, digests: readonly string[]): void {
  const start = `photos book-${inName(identity)}`;
  const names = existsSync(folder) ? readdirSync(folder) : [];
  for (const name of names.filter((one) => one === start || one.startsWith(`${start} locked-`)))
    for (const digest of digests)
      for (const ending of ['.jpg', LOCKED]) deletePhoto(join(folder, name), digest, ending);
}

/**
 * The photographs of a book: JPEG files in a folder beside it, each named by the SHA-256 of its bytes
 * (`SHOP photos/3f/79bb….jpg`). Which of them count stands in the book; a file without a row is no photograph of it.
 */
import { createHash } from 'node:crypto';
import { lstatSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { finish, refuseStrangeLink } from '../backup.ts';
import { syncFile } from '../durable-files.ts';
import { clearPartials } from '../partial-files.ts';
import { makeFolder, PRIVATE } from '../private-files.ts';

/** SHA-256 in lower-case hexadecimal: only such a name leads to a file. */
export const DIGEST = /^[0-9a-f]{64}$/;
/** The first digits name a folder, so that none holds too many files. */
const GROUP = 2;
const IN_GROUP = /^[0-9a-f]{62}$/;

export const digestOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/** The folder of photographs beside the book. */
export function photoFolder(bookPath: string): string {
  return join(dirname(bookPath), `${basename(bookPath, '.gambrel')} photos`);
}

/** @param ending of the file's name @throws Error for what is no digest */
export function photoPath(folder: string, digest: string, ending = '.jpg'): string {
  if (!DIGEST.test(digest)) throw new Error('no digest');
  return join(folder, digest.slice(0, GROUP), digest.slice(GROUP) + ending);
}

/**
 * Stores a photograph; on the disk once this returns. One that is there already stays, and counts as stored now; one that
 * differs from its digest is replaced.
 * @throws BookError `full`, `read-only`, `folder`, `drive`, `link`, `backup`
 */
export function storePhoto(folder: string, digest: string, bytes: Uint8Array, now: Date): void {
  const path = photoPath(folder, digest);
  refuseStrangeLink(folder);
  if (readPhoto(folder, digest).state === 'here') {
    utimesSync(path, now, now);
    return;
  }
  makeFolder(dirname(path));
  finish(path, (part) => {
    writeFileSync(part, bytes, { flag: 'wx', mode: PRIVATE });
    syncFile(part);
  });
}

/** A photograph as it lies in its folder; `altered`: its bytes are no longer those of its digest. */
export type StoredPhoto = { state: 'here'; bytes: Buffer } | { state: 'missing' } | { state: 'altered' };

/** Reads a photograph and checks it against its digest. */
export function readPhoto(folder: string, digest: string): StoredPhoto {
  let bytes: Buffer;
  try {
    bytes = readFileSync(photoPath(folder, digest));
  } catch {
    return { state: 'missing' };
  }
  return digestOf(bytes) === digest ? { state: 'here', bytes } : { state: 'altered' };
}

/** The digests of all photographs in a folder, by their names alone. */
export function photosIn(folder: string, ending = '.jpg'): Set<string> {
  const found = new Set<string>();
  for (const group of namesIn(folder).filter((name) => name.length === GROUP))
    for (const name of namesIn(join(folder, group)))
      if (name.endsWith(ending) && IN_GROUP.test(name.slice(0, -ending.length)))
        found.add(group + name.slice(0, -ending.length));
  return found;
}

export function deletePhoto(folder: string, digest: string, ending = '.jpg'): void {
  rmSync(photoPath(folder, digest, ending), { force: true });
}

/** Whether a photograph was stored before a moment. */
export function isOlder(folder: string, digest: string, moment: Date): boolean {
  const found = lstatSync(photoPath(folder, digest), { throwIfNoEntry: false });
  return found !== undefined && found.mtimeMs < moment.getTime();
}

/** Deletes what interrupted runs left half written. */
export function clearPhotoPartials(folder: string): void {
  for (const group of namesIn(folder).filter((name) => name.length === GROUP))
    clearPartials(join(folder, group), (name) => name.includes('.jpg'));
}

/** Names in a folder; none if it is not there or cannot be read, where its photographs count as missing. */
function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

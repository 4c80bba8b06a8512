/** Finds the book that a backup belongs to, by its name and its contents. */
import { statSync } from 'node:fs';
import type Database from 'better-sqlite3';
import type { Backup } from './backup.ts';
import { shopOf } from './backup-check.ts';
import { inName, isEarlierState, labelOf, type BookLabel } from './book-identity.ts';
import { readHeader, unlockFile, type Lock } from './locked-file.ts';
import { openFile } from './open-file.ts';
import { removePartial } from './partial-files.ts';

/** The owner of a backup. */
export interface Owner {
  label: BookLabel;
  /** Name of the shop; empty if never set, or locked. */
  shop: string;
}

/** A lock to open locked backups of earlier versions, and a local folder for their decrypted copies. */
export interface Opener {
  lock: Lock;
  scratch: string;
}

/** Cache: backups never change. */
const known = new Map<string, Owner | null>();
const MAX_KNOWN = 2000;

/**
 * Reads the owner of a backup. Never throws: an unreadable file has no owner.
 * @param opener required for a locked backup of an earlier version
 */
export function ownerOf({ path, locked }: Pick<Backup, 'path' | 'locked'>, opener?: Opener): Owner | null {
  try {
    const { size, mtimeMs } = statSync(path);
    const key = [path, size, mtimeMs, locked && opener?.lock.salt].join(' ');
    const cached = known.get(key);
    if (cached !== undefined) return cached;
    const owner = locked ? ownerOfLocked(path, opener) : ownerOfPlain(path);
    if (known.size >= MAX_KNOWN) known.clear();
    known.set(key, owner);
    return owner;
  } catch {
    // Truncated, damaged, or on a removed stick: no owner until it can be read.
    return null;
  }
}

/**
 * Those of `backups` that are earlier states of the open book `db` and may be deleted by it. Excludes backups of
 * other books, of other continuations of a copied or restored book, and of unknown owners.
 */
export function ownBackups(
  db: Database.Database,
  book: string | null,
  backups: readonly Backup[],
  opener?: Opener,
): Backup[] {
  return backups.filter((one) => {
    if (!mayBeOf(one, book)) return false;
    const owner = ownerOf(one, opener);
    return owner !== null && isEarlierState(db, owner.label);
  });
}

/**
 * Whether the name of a backup allows that it is of this book: it contains the identity, or is older than
 * identities.
 */
export function mayBeOf({ book: named }: Pick<Backup, 'book'>, book: string | null): boolean {
  return named === null || (book !== null && named === inName(book));
}

function ownerOfPlain(path: string): Owner | null {
  const db = openFile(path, { readonly: true, fileMustExist: true });
  try {
    return { label: labelOf(db), shop: shopOf(db) };
  } finally {
    db.close();
  }
}

function ownerOfLocked(path: string, opener?: Opener): Owner | null {
  const outside = readHeader(path);
  if (!outside) return null;
  if (outside.label) return { label: outside.label, shop: '' };
  if (outside.salt !== opener?.lock.salt) return null;
  try {
    unlockFile(path, opener.scratch, opener.lock);
    return ownerOfPlain(opener.scratch);
  } finally {
    removePartial(opener.scratch);
  }
}

/** Finds the owner of a backup by its name and its contents. */
import { statSync } from 'node:fs';
import type Database from 'better-sqlite3';
import type { Backup } from './backup.ts';
import { shopOf } from './backup-check.ts';
import { inName, isEarlierState, labelOf, type BookLabel } from './book-identity.ts';
import { outsideOf, unlockFile, type Lock } from './locked-file.ts';
import { openFile } from './open-file.ts';
import { removePartial } from './partial-files.ts';

/** What was read of a backup. */
export interface Owner {
  label: BookLabel;
  /** Name of the shop; empty where it was never set, or is locked. */
  shop: string;
}

/** A lock to look into locked backups of earlier versions, and a place on this computer where they may lie open meanwhile. */
export interface Opener {
  lock: Lock;
  scratch: string;
}

/** Backups never change, so what was read of one is cached. */
const known = new Map<string, Owner | null>();
const MAX_KNOWN = 2000;

/**
 * Reads whose a backup is. Never throws: a file that cannot be read is nobody's.
 * @param opener without it, a locked backup of an earlier version tells nothing
 */
export function ownerOf({ path, locked }: Pick<Backup, 'path' | 'locked'>, opener?: Opener): Owner | null {
  try {
    const { size, mtimeMs } = statSync(path);
    const key = [path, size, mtimeMs, locked && opener?.lock.salt].join(' ');
    const kept = known.get(key);
    if (kept !== undefined) return kept;
    const owner = locked ? ownerOfLocked(path, opener) : ownerOfPlain(path);
    if (known.size >= MAX_KNOWN) known.clear();
    known.set(key, owner);
    return owner;
  } catch {
    // Cut short, spoilt, or away with its stick: nobody's until it can be read.
    return null;
  }
}

/**
 * Those of `backups` that are earlier states of the open book `db`, and may be thinned by it: not those of another book,
 * nor of another continuation of a copied or restored one, nor any that cannot be told.
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

/** Whether the name of a backup allows that it is of this book: it names it, or is from before names did. */
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
  const outside = outsideOf(path);
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

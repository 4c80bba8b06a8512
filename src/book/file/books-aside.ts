/** Books that were replaced by a restored backup: renamed and kept in the same folder. */
import { existsSync, lstatSync, readdirSync, renameSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { syncFolder, momentInName } from './durable-files.ts';
import { breakSeal } from './seal.ts';

/** The book's file and the files that SQLite may leave beside it. */
export const ENDINGS = ['', '-wal', '-shm'];
const ASIDE = /^ set aside (\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)(?: \(\d+\))?$/;

/** A backup, or a book that was set aside. */
export interface Source {
  path: string;
  locked: boolean;
}

/** A book that a restored one replaced. */
interface SetAside extends Source {
  /** UTC moment at which it was set aside. */
  at: string;
  bytes: number;
}

/** Replaced books, newest first; none if the folder cannot be read, where no book opens either. */
export function listSetAside(bookPath: string): SetAside[] {
  const folder = dirname(bookPath);
  const start = basename(bookPath);
  return namesIn(folder)
    .filter((name) => name.startsWith(start))
    .flatMap((name) => {
      const [, day, hour, minute, second] = ASIDE.exec(name.slice(start.length)) ?? [];
      if (!day) return [];
      const path = join(folder, name);
      if (!lstatSync(path, { throwIfNoEntry: false })?.isFile()) return [];
      return [{ path, locked: false, at: `${day}T${hour}:${minute}:${second}Z`, bytes: statSync(path).size }];
    })
    .sort((a, b) => (a.path < b.path ? 1 : -1));
}

/** Renames the closed book and its logs. @returns its new path, or null if there was none */
export function setAside(bookPath: string, now: Date): string | null {
  breakSeal(bookPath);
  const start = `${bookPath} set aside ${momentInName(now)}`;
  let aside = start;
  for (let n = 2; existsSync(aside); n++) aside = `${start} (${n})`;
  const there = ENDINGS.filter((ending) => existsSync(bookPath + ending));
  for (const ending of there) renameSync(bookPath + ending, aside + ending);
  syncFolder(dirname(bookPath));
  return there.includes('') ? aside : null;
}

function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}

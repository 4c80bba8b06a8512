/** Writes that survive a power cut. */
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';

/** Returns once what was written to `path` is on the disk itself. */
export function syncFile(path: string): void {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Returns once names given and taken away in `folder` are on the disk; Windows does that by itself and opens no folder. */
export function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const file = openSync(folder, 'r');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** A moment as it stands in a file's name. @example momentInName(new Date(0)) // '1970-01-01T00-00-00' */
export function momentInName(at: Date): string {
  return at.toISOString().slice(0, 19).replaceAll(':', '-');
}

/**
 * Writes all of `bytes`, at the end or at a place: a disk that is almost full takes a part of what it is given before
 * it refuses, and `writeSync` alone would pass that over.
 */
export function writeWhole(file: number, bytes: Uint8Array, position?: number): void {
  for (let done = 0; done < bytes.length;)
    done += writeSync(
      file,
      bytes,
      done,
      bytes.length - done,
      position === undefined ? undefined : position + done,
    );
}

/** Writes that survive a power failure. */
import { closeSync, fsyncSync, openSync, writeSync } from 'node:fs';

/** Flushes the contents of `path` to the disk. */
export function syncFile(path: string): void {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Flushes created and deleted names in `folder` to the disk. Windows does so by itself and cannot open a folder. */
export function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const file = openSync(folder, 'r');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** A timestamp for a file name. @example momentInName(new Date(0)) // '1970-01-01T00-00-00' */
export function momentInName(at: Date): string {
  return at.toISOString().slice(0, 19).replaceAll(':', '-');
}

/**
 * Writes all of `bytes`, at the end or at a position. On an almost full disk `writeSync` may write only a part
 * without an error.
 */
export function writeFully(file: number, bytes: Uint8Array, position?: number): void {
  for (let done = 0; done < bytes.length;)
    done += writeSync(
      file,
      bytes,
      done,
      bytes.length - done,
      position === undefined ? undefined : position + done,
    );
}

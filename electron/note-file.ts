/** Settings of the shell between starts: one small JSON file each, in the program's own folder. */
import { readFileSync, statSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { clearPartials, replaceFile } from '../src/book/file/partial-files.ts';
import { logError } from './log.ts';

/** Larger than any of these files, bytes. */
const MAX_BYTES = 64 * 1024;

/** Reads a stored value; null if there is none. The caller validates it, because anybody may have written the file. */
export function readNote(file: string): unknown {
  try {
    const found = statSync(file);
    // Reading a pipe would block.
    if (!found.isFile() || found.size > MAX_BYTES) return null;
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return null; // never stored, or not JSON
  }
}

/** A text member of a stored value, if it has one. */
export function noted(note: unknown, member: string): string | null {
  const value = (note as Record<string, unknown> | null)?.[member];
  return typeof value === 'string' && value !== '' ? value : null;
}

/** Stores a value for the next start. A failed write is ignored: only the setting is lost. */
export function writeNote(file: string, note: object): void {
  try {
    clearPartials(dirname(file), (name) => name === basename(file));
    replaceFile(file, JSON.stringify(note));
  } catch (error) {
    logError('note-not-kept', error);
  }
}

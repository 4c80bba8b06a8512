/** What the shell remembers between starts: one small JSON file each, in the program's own folder. */
import { readFileSync, statSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { clearPartials, replaceFile } from '../src/book/file/partial-files.ts';
import { logError } from './log.ts';

/** No note of ours comes near this, bytes. */
const LONGEST = 64 * 1024;

/** What was noted last: null where there is no note. Who reads it checks what it says: anybody may have written it. */
export function readNote(file: string): unknown {
  try {
    const found = statSync(file);
    // A pipe would never answer.
    if (!found.isFile() || found.size > LONGEST) return null;
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    return null; // never noted, or not JSON
  }
}

/** A member of a note, if it has one that is a text. */
export function noted(note: unknown, member: string): string | null {
  const value = (note as Record<string, unknown> | null)?.[member];
  return typeof value === 'string' && value !== '' ? value : null;
}

/** Notes something for next time. A disk that refuses costs the memory, not the work. */
export function writeNote(file: string, note: object): void {
  try {
    clearPartials(dirname(file), (name) => name === basename(file));
    replaceFile(file, JSON.stringify(note));
  } catch (error) {
    logError('note-not-kept', error);
  }
}

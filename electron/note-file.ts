/** What the shell remembers between starts: one small JSON file each, in the program's own folder. */
import { readFileSync, writeFileSync } from 'node:fs';
import { logError } from './log.ts';

/** What was noted last: null where there is no note. Who reads it checks what it says: anybody may have written it. */
export function readNote(file: string): unknown {
  try {
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
    writeFileSync(file, JSON.stringify(note));
  } catch (error) {
    logError('note-not-kept', error);
  }
}

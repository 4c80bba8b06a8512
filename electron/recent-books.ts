/** The books that were open last, newest first. */
import { noted, readNote, writeNote } from './note-file.ts';

/** As many as a person takes in at a glance. */
const MOST = 8;

export function readRecent(file: string): string[] {
  const note = readNote(file);
  if (!Array.isArray(note)) return [];
  return note.flatMap((entry) => noted(entry, 'path') ?? []).slice(0, MOST);
}

/** Puts a book at the head of the list and returns the list. A book that went away stays in it: its drive may come back. */
export function noteRecent(file: string, path: string): string[] {
  const list = [path, ...readRecent(file).filter((other) => other !== path)].slice(0, MOST);
  writeNote(
    file,
    list.map((one) => ({ path: one })),
  );
  return list;
}

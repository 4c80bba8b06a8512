/** The recently opened books, newest first. */
import { noted, readNote, writeNote } from './note-file.ts';

/** Maximum length of the list. */
const MAX_BOOKS = 8;

export function readRecent(file: string): string[] {
  const note = readNote(file);
  if (!Array.isArray(note)) return [];
  return note.flatMap((entry) => noted(entry, 'path') ?? []).slice(0, MAX_BOOKS);
}

/**
 * Moves a book to the head of the list and returns the list. A missing book stays in it, because its drive may
 * return.
 */
export function noteRecent(file: string, path: string): string[] {
  const list = [path, ...readRecent(file).filter((other) => other !== path)].slice(0, MAX_BOOKS);
  writeNote(
    file,
    list.map((one) => ({ path: one })),
  );
  return list;
}

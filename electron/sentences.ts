/** What the shell itself has to say, outside the window: one sentence and a way on. */

/** Why the desk could not open a book; `code` is one of the book's own trouble codes. */
export interface OpeningTrouble {
  code: string;
  path: string;
}

const SENTENCES: Readonly<Record<string, (path: string) => string>> = {
  folder: (path) =>
    `The folder of ${path} cannot be used: check that it is there, or name another book with --book.`,
  'read-only': (path) =>
    `${path} cannot be written: allow writing to it and its folder, or name another book with --book.`,
  damaged: (path) =>
    `The book ${path} is damaged and was left as it is: open the newest good backup, or name another book with --book.`,
  foreign: (path) =>
    `${path} is not a Gambrel book and was left as it is: name the right file, or another one, with --book.`,
  newer: (path) =>
    `The book ${path} was written by a newer Gambrel: update this one, or name another book with --book.`,
  locked: (path) =>
    `The book ${path} is open in another Gambrel: close that one first, or name another book with --book.`,
  migration: (path) =>
    `The book ${path} could not be brought up to date and was left as it was: open the newest good backup, or name another book with --book.`,
  backup: (path) =>
    `No sound backup of ${path} could be made, so it was left unopened: free some disk space and start again, or name another book with --book.`,
  missing: (path) => `There is no book at ${path}: check the path after --book.`,
};

/**
 * Whether putting a backup in the book's place is a way on. A first page that was overwritten reads as another
 * program's file; a newer book, or one in use, is whole and must stay.
 */
export function backupHelps(code: string): boolean {
  return ['damaged', 'foreign', 'migration', 'missing'].includes(code);
}

/** The sentence for a book that does not open. */
export function openingSentence({ code, path }: OpeningTrouble): string {
  const sentence = SENTENCES[code];
  return sentence ? sentence(path) : `The book ${path} cannot be opened: name another book with --book.`;
}

export const DESK_STOPPED =
  'The part of Gambrel that keeps the book stopped and was started again. Everything that was saved is there; look at the last entry before you go on.';
export const DESK_KEEPS_STOPPING =
  'The part of Gambrel that keeps the book stops again and again. The book is safe on disk; restart the computer and, if this stays, open a backup.';
export const WINDOW_MISSING =
  'The files of the window are missing: run "npm run build", then start Gambrel again.';

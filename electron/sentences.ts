/** What the shell itself has to say, outside the window: one sentence and a way on. */

/** For the terminal: which book is not open. Why, and the way back, is in the window. */
export function notOpen(bookPath: string): string {
  return `The book ${bookPath} is not open: the window says why and offers the way back. Another book is opened with --book.`;
}

export const DESK_STOPPED =
  'The part of Gambrel that keeps the book stopped and was started again. Everything that was saved is there; look at the last entry before you go on.';
export const DESK_KEEPS_STOPPING =
  'The part of Gambrel that keeps the book stops again and again. The book is safe on disk; restart the computer and, if this stays, open a backup.';
export const WINDOW_MISSING =
  'The files of the window are missing: run "npm run build", then start Gambrel again.';

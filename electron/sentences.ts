/** What the shell itself has to say, outside the window: one sentence and a way on. */

/** For the terminal: which book is not open. Why, and the way back, is in the window. */
export function notOpen(bookPath: string): string {
  return `The book ${bookPath} is not open: the window says why and offers the way back. Another book is opened with --book.`;
}

export const DESK_STOPPED =
  'The part of Gambrel that keeps the book stopped and was started again. Everything that was saved is there; look at the last entry before you go on.';
export const DESK_KEEPS_STOPPING =
  'The part of Gambrel that keeps the book stops again and again. The book is safe on disk; restart the computer and, if this stays, open a backup.';
export const WINDOW_STOPPED =
  'The window stopped and was opened again. Everything that was saved is there; what was being typed has to be typed again.';
export const WINDOW_KEEPS_STOPPING =
  'The window stops again and again, so Gambrel closes. The book is safe; restart the computer, then start Gambrel again.';
export const WINDOW_HANGS =
  'The window does not answer. Everything that was saved is with the book; what is being typed now is lost if the window is opened again.';
export const WINDOW_MISSING =
  'The files of the window are missing: run "npm run build", then start Gambrel again.';
export const CLOSING_IS_SLOW =
  'The last backup is still being made; a slow drive may need some minutes. Nothing that was saved is lost either way.';
export const NO_PRINTER =
  'This computer knows no printer: set one up in the settings of the computer, then choose it here.';

export function bookNotThere(path: string): string {
  return `The book ${path} is not there. If it lies on a drive that was unplugged, plug it in and open the book again; it stays in the list.`;
}

export function notPrinted(reason: string): string {
  return `Nothing was printed: ${reason}.`;
}

export function labelPrinterNotThere(name: string): string {
  return `Nothing was printed: the printer for labels, ${name}, is not there. Switch it on, or choose another under File, Printer for labels.`;
}

export function notSaved(path: string): string {
  return `${path} could not be written: check that the disk has room and can be written, or choose another folder.`;
}

/** The shell's own messages, outside the window: one sentence and a remedy. */

/** For the terminal: which book is not open. The window shows the reason and the remedy. */
export function notOpen(bookPath: string): string {
  return `The book ${bookPath} is not open: the window says why and offers the way back. Another book is opened with --book.`;
}

export const DESK_STOPPED =
  'The part of Gambrel that keeps the book stopped and was started again. Everything that was saved is there; look at the last entry before you go on.';
export const DESK_OUT_OF_MEMORY =
  'The part of Gambrel that keeps the book ran out of memory, it seems, and was started again. Everything that was saved is there; look at the last entry before you go on. Close other programs, and restart the computer if it happens again.';
export const DESK_KEEPS_STOPPING =
  'The part of Gambrel that keeps the book stops again and again. The book is safe on disk; restart the computer and, if this stays, open a backup.';
export const WINDOW_STOPPED =
  'The window stopped and was opened again. Everything that was saved is there; what was being typed has to be typed again.';
export const WINDOW_KEEPS_STOPPING =
  'The window stops again and again, so Gambrel closes. The book is safe; restart the computer, then start Gambrel again.';
export const WINDOW_HANGS =
  'The window does not answer. Everything that was saved is with the book; what is being typed now is lost if the window is opened again.';
export const WINDOW_NOT_LOADED =
  'The window could not be loaded. Quit Gambrel and start it again; if that does not help, reinstall it. The book is untouched.';
export const NOT_STARTED =
  'Gambrel could not start. Restart the computer; if that does not help, reinstall Gambrel. Your books are untouched.';
export const NOT_DONE =
  'That could not be done. Everything that was saved is there. If it happens again, quit Gambrel and start it again.';
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

/** For a start whose pages would run without a sandbox. AppImage: how the installer of that name started it. */
export function noSandbox(appImage: boolean): string {
  const way = appImage
    ? 'This system does not let an AppImage have one (Ubuntu does so since 24.04): install the deb package instead, which sets that up.'
    : 'Start it without the switch or setting that turns the sandbox off (--no-sandbox, ELECTRON_DISABLE_SANDBOX).';
  return `Gambrel does not run without its sandbox, which keeps a broken page away from your files. ${way} Your book is untouched.`;
}

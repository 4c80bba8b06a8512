/** The log of the shell: a few files of limited length in the program's own folder. */
import { appendFileSync, mkdirSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { errorLine, logLine, markOf, type ErrorMark } from './log-lines.ts';

/** A file longer than this, bytes, is set aside; so many are kept beside the one that is written. */
const LONGEST = 256 * 1024;
const KEPT = 3;

let file: string | null = null;

/** Begins to log into `folder`. What is logged earlier goes to the terminal alone. */
export function openLog(folder: string): void {
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    file = join(folder, 'gambrel.log');
  } catch (error) {
    console.error('Gambrel: there is no log.', error);
  }
}

/** Where the log is written, to be shown to the person. */
export function logFile(): string | null {
  return file;
}

export function logEvent(event: string, more?: Readonly<Record<string, string | number>>): void {
  append(logLine(new Date(), event, more));
}

/** Logs an error of our own, and shows all of it in the terminal, which stays with the person. */
export function logError(event: string, error: unknown): void {
  console.error(`Gambrel: ${event}.`, error);
  logMark(event, markOf(error));
}

/** Logs an error that another process told of. */
export function logMark(event: string, mark: ErrorMark): void {
  append(errorLine(new Date(), event, mark));
}

function append(line: string): void {
  if (!file) return;
  try {
    if ((statSync(file, { throwIfNoEntry: false })?.size ?? 0) > LONGEST) rotate(file);
    appendFileSync(file, line);
  } catch (error) {
    // The log is the last place to tell: a full disk costs the log, not the work.
    console.error('Gambrel: the log could not be written.', error);
  }
}

/** `gambrel.log` becomes `gambrel.log.1`, that becomes `.2`, and the oldest goes. */
function rotate(full: string): void {
  for (let number = KEPT; number > 0; number -= 1) {
    const older = number === 1 ? full : `${full}.${number - 1}`;
    if (statSync(older, { throwIfNoEntry: false })) renameSync(older, `${full}.${number}`);
  }
}

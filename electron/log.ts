/** The log of the shell: a few files of limited length in the program's own folder. */
import { closeSync, constants, lstatSync, mkdirSync, openSync, renameSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { errorLine, logLine, markOf, type ErrorMark } from './log-lines.ts';

/** A file longer than this, bytes, is set aside; so many are kept beside the one that is written. */
const LONGEST = 256 * 1024;
const KEPT = 3;

/** Never through a link; Windows has no such flag, and there only the look before stands in the way. */
const APPEND = constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0);

let file: string | null = null;

/** Begins to log into the folder that `place` names; it may throw. What is logged earlier goes to the terminal alone. */
export function openLog(place: () => string): void {
  try {
    const folder = place();
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
    const found = lstatSync(file, { throwIfNoEntry: false });
    // What is no file of ours goes aside like a full one: a link would have the log written into somebody's file, and a
    // pipe would never answer.
    if (found && (!found.isFile() || found.size > LONGEST)) rotate(file);
    const open = openSync(file, APPEND, 0o600);
    try {
      writeSync(open, line);
    } finally {
      closeSync(open);
    }
  } catch (error) {
    // The log is the last place to tell: a full disk costs the log, not the work.
    console.error('Gambrel: the log could not be written.', error);
  }
}

/** `gambrel.log` becomes `gambrel.log.1`, that becomes `.2`, and the oldest goes. */
function rotate(full: string): void {
  for (let number = KEPT; number > 0; number -= 1) {
    const older = number === 1 ? full : `${full}.${number - 1}`;
    if (lstatSync(older, { throwIfNoEntry: false })) renameSync(older, `${full}.${number}`);
  }
}

/** The shell's log: a few files of limited size in the program's own folder. */
import { closeSync, constants, lstatSync, mkdirSync, openSync, renameSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { errorLine, logLine, markOf, type ErrorMark } from './log-lines.ts';

/** A larger file, bytes, is rotated; `KEPT` old files are kept. */
const MAX_BYTES = 256 * 1024;
const MAX_OLD_FILES = 3;

/** Never through a link; Windows has no such flag, so only the check before applies there. */
const APPEND = constants.O_WRONLY | constants.O_APPEND | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0);

let file: string | null = null;

/** Starts logging into the folder that `place` returns; it may throw. Earlier events go to the terminal only. */
export function openLog(place: () => string): void {
  try {
    const folder = place();
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    file = join(folder, 'gambrel.log');
  } catch (error) {
    console.error('Gambrel: there is no log.', error);
  }
}

/** The path of the log, to be shown to the person. */
export function logFile(): string | null {
  return file;
}

export function logEvent(event: string, more?: Readonly<Record<string, string | number>>): void {
  append(logLine(new Date(), event, more));
}

/** Logs an error of this process, and prints it in full to the terminal, which stays with the person. */
export function logError(event: string, error: unknown): void {
  console.error(`Gambrel: ${event}.`, error);
  logMark(event, markOf(error));
}

/** Logs an error reported by another process. */
export function logMark(event: string, mark: ErrorMark): void {
  append(errorLine(new Date(), event, mark));
}

function append(line: string): void {
  if (!file) return;
  try {
    const found = lstatSync(file, { throwIfNoEntry: false });
    // Anything but a regular file is rotated too: a link would redirect the log into another file, and a pipe would
    // block.
    if (found && (!found.isFile() || found.size > MAX_BYTES)) rotate(file);
    const open = openSync(file, APPEND, 0o600);
    try {
      writeSync(open, line);
    } finally {
      closeSync(open);
    }
  } catch (error) {
    // A failure to log, such as a full disk, must not stop the program.
    console.error('Gambrel: the log could not be written.', error);
  }
}

/** `gambrel.log` becomes `gambrel.log.1`, that becomes `.2`, and the oldest is deleted. */
function rotate(full: string): void {
  for (let number = MAX_OLD_FILES; number > 0; number -= 1) {
    const older = number === 1 ? full : `${full}.${number - 1}`;
    if (lstatSync(older, { throwIfNoEntry: false })) renameSync(older, `${full}.${number}`);
  }
}

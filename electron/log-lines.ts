/**
 * Lines of the log. A person may send the log to others, so it contains no records and no names: of an error only
 * its class, its code and the locations in our own files, never its message.
 */
import { basename } from 'node:path';

/** The loggable part of an error. */
export interface ErrorMark {
  name: string;
  code: string;
  places: string[];
}

/** Maximum number of stack locations. */
const MAX_PLACES = 8;

/** Example: `new TypeError('Ann Miller has no tag')` in desk.js → name `TypeError`, code ``, places `['desk.js:10:5', …]`. */
export function markOf(error: unknown): ErrorMark {
  if (!(error instanceof Error)) return { name: typeof error, code: '', places: [] };
  const code = String((error as { code?: unknown }).code ?? '');
  // The message precedes the stack and may span lines: only lines that look like a location are used.
  const places = (error.stack ?? '').matchAll(/^\s+at .*?([^\s()]+:\d+:\d+)\)?$/gm);
  return {
    name: word(error.name),
    code: word(code),
    places: [...places].slice(0, MAX_PLACES).map(([, place = '']) => basename(place)),
  };
}

/** One line: time, event, and loggable details. */
export function logLine(
  at: Date,
  event: string,
  more: Readonly<Record<string, string | number>> = {},
): string {
  const details = Object.entries(more).map(([name, value]) => ` ${name}=${value}`);
  return `${at.toISOString()} ${event}${details.join('')}\n`;
}

/** One line of an error. */
export function errorLine(at: Date, event: string, { name, code, places }: ErrorMark): string {
  return logLine(at, event, { error: name, ...(code ? { code } : {}), at: places.join('<') || '-' });
}

/** Classes and codes of the program are single words; anything else may be user text. */
function word(text: string): string {
  return /^[A-Za-z][\w.-]*$/.test(text) ? text : '';
}

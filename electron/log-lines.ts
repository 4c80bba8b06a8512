/**
 * Lines of the log. A person may send the log to somebody, so nothing of the book and nobody's name stands in it: of
 * an error only its kind, its code and the places in our own files, never its message.
 */
import { basename } from 'node:path';

/** An error as it may be written down. */
export interface ErrorMark {
  name: string;
  code: string;
  places: string[];
}

/** How many places of an error's way through the program are kept. */
const MOST_PLACES = 8;

/** Example: `new TypeError('Ann Miller has no tag')` in desk.js → name `TypeError`, code ``, places `['desk.js:10:5', …]`. */
export function markOf(error: unknown): ErrorMark {
  if (!(error instanceof Error)) return { name: typeof error, code: '', places: [] };
  const code = String((error as { code?: unknown }).code ?? '');
  // The message stands above the places and may span lines: only what looks like a place is taken.
  const places = (error.stack ?? '').matchAll(/^\s+at .*?([^\s()]+:\d+:\d+)\)?$/gm);
  return {
    name: word(error.name),
    code: word(code),
    places: [...places].slice(0, MOST_PLACES).map(([, place = '']) => basename(place)),
  };
}

/** One line: when, what, and what may be said about it. */
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

/** A class or code of the program's is one word; anything else might be somebody's text. */
function word(text: string): string {
  return /^[A-Za-z][\w.-]*$/.test(text) ? text : '';
}

/** Messages between a window and the desk on a message port; HTTP carries the same data. */
import type { DeskChanged } from '../desk/desk.ts';
import type { Answer } from '../desk/contract/problem.ts';

/** Window to desk: one call, numbered by the window to match its answer. */
export interface CallMessage {
  id: number;
  name: string;
  input: unknown;
  /** The opening of the book that the call is meant for; null before the window knows one. */
  opening: string | null;
  /** The language in which built-in things are named. */
  language: string;
}

/** Desk to window: the answer to a numbered call, or a change of the book. */
export type DeskMessage = { id: number | null; answer: Answer<unknown> } | { changed: DeskChanged };

/** The same over HTTP, where the body is the input alone. */
export const OPENING_HEADER = 'gambrel-opening';
export const LANGUAGE_HEADER = 'gambrel-language';
/** Who is signed in at a station. */
export const PERSON_HEADER = 'gambrel-person';
/** What a station's outbox holds: entries that wait, are unanswered, are of another book, were left out. Example: `4 0 0 0`. */
export const HELD_HEADER = 'gambrel-held';

/** The shell's channel on which a window requests its port and receives it. */
export const DESK_PORT_CHANNEL = 'gambrel:desk-port';

/** The shell's channel on which a window says its language, in which menus and dialogs speak then. */
export const LANGUAGE_CHANNEL = 'gambrel:language';

/** The shell's channel on which a window requests that its labels be printed. */
export const PRINT_LABELS_CHANNEL = 'gambrel:print-labels';

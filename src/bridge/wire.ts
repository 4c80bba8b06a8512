/** What travels between a window and the desk on a message port; HTTP carries the same two things in its own clothes. */
import type { DeskChanged } from '../desk/desk.ts';
import type { Answer } from '../desk/contract/problem.ts';

/** Window to desk: one call, numbered by the window so that its answer finds its way back. */
export interface CallMessage {
  id: number;
  name: string;
  input: unknown;
  /** The opening of the book that it is meant for; null: the window knows none yet. */
  opening: string | null;
}

/** Desk to window: the answer to a numbered call, or the news that the book changed. */
export type DeskMessage = { id: number | null; answer: Answer<unknown> } | { changed: DeskChanged };

/** The same over HTTP, where the body is the input alone. */
export const OPENING_HEADER = 'gambrel-opening';

/** The channel of the shell on which a window asks for its port, and on which the port is handed over. */
export const DESK_PORT_CHANNEL = 'gambrel:desk-port';

/** The channel of the shell on which a window asks for its labels to be printed. */
export const PRINT_LABELS_CHANNEL = 'gambrel:print-labels';

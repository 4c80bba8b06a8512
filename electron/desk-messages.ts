/** Messages between the shell and the desk process; the windows' calls use their own ports. */
import type { ErrorMark } from './log-lines.ts';

/** Shell to desk. A `window` message transfers one port. */
export type ToDesk =
  | { kind: 'open'; bookPath: string; named: boolean; demo: boolean; demoKeptAt: string }
  | { kind: 'window' }
  /** `text`: null where there is no key store, or where it refuses. */
  | { kind: 'key store says'; id: number; text: string | null }
  | { kind: 'back up' }
  /**
   * `backUp`: whether there is time for the closing backup. `doneFile`: a file to create once the book is closed,
   * for a shell that cannot await an answer.
   */
  | { kind: 'close'; backUp: boolean; doneFile: string | null };

/** Desk to shell. The window reports a book that does not open, and offers the remedy. */
export type FromDesk =
  | { kind: 'ready' }
  | { kind: 'backed up'; path: string | null }
  | { kind: 'broken'; mark: ErrorMark }
  /** Stations were switched on or off. */
  | { kind: 'stations'; on: boolean }
  /** Seals a text by the system's key store, or opens one; the answer has the same id. */
  | { kind: 'key store'; id: number; work: 'seal' | 'unseal'; text: string }
  | { kind: 'closed' };

/** Exit code of a desk that ended because of its own error: EX_SOFTWARE of BSD's sysexits.h. */
export const DESK_FAILED = 70;

/** The name of the desk process in the system's process list and in the shell's events. */
export const DESK_NAME = 'Gambrel desk';

/** What the shell and the desk process say to each other; the windows' calls go over ports of their own. */
import type { ErrorMark } from './log-lines.ts';

/** Shell to desk. A `window` message brings one port with it. */
export type ToDesk =
  | { kind: 'open'; bookPath: string; named: boolean; demo: boolean; demoKeptAt: string }
  | { kind: 'window' }
  | { kind: 'back up' }
  /**
   * `backUp`: whether there is time for the closing backup. `doneFile`: a file to make once the book is closed, for a
   * shell that may not go on listening.
   */
  | { kind: 'close'; backUp: boolean; doneFile: string | null };

/** Desk to shell. A book that does not open is told by the window, which has the way back. */
export type FromDesk =
  | { kind: 'ready' }
  | { kind: 'backed up'; path: string | null }
  | { kind: 'broken'; mark: ErrorMark }
  | { kind: 'closed' };

/** Exit code of a desk that ended because of an error of its own: EX_SOFTWARE of BSD's sysexits.h. */
export const DESK_FAILED = 70;

/** The name of the desk process, in the system's list of processes and in the shell's events. */
export const DESK_NAME = 'Gambrel desk';

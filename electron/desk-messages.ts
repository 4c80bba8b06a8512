/** What the shell and the desk process say to each other; the windows' calls go over ports of their own. */
import type { ErrorMark } from './log-lines.ts';

/** Shell to desk. A `window` message brings one port with it. */
export type ToDesk =
  | { kind: 'open'; bookPath: string; demo: boolean; demoKeptAt: string }
  | { kind: 'window' }
  | { kind: 'back up' }
  | { kind: 'close' };

/** Desk to shell. A book that does not open is told by the window, which has the way back. */
export type FromDesk =
  | { kind: 'ready' }
  | { kind: 'backed up'; path: string | null }
  | { kind: 'broken'; mark: ErrorMark }
  | { kind: 'closed' };

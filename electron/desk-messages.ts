/** What the shell and the desk process say to each other; the windows' calls go over ports of their own. */
import type { OpeningTrouble } from './sentences.ts';

/** Shell to desk. A `window` message brings one port with it. */
export type ToDesk =
  | { kind: 'open'; bookPath: string; demo: boolean }
  | { kind: 'restore' }
  | { kind: 'window' }
  | { kind: 'back up' }
  | { kind: 'close' };

/** Desk to shell. */
export type FromDesk =
  | { kind: 'ready' }
  | { kind: 'trouble'; trouble: OpeningTrouble; backup: { path: string; at: string } | null }
  | { kind: 'backed up'; path: string | null }
  | { kind: 'closed' };

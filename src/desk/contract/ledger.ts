/** The ledger: the owner's PostgreSQL, to which the book is fed. */
import type { LedgerCode } from '../../ledger/server/ledger-error.ts';

export type { LedgerCode };

/** Where the ledger is and what goes there; the password is kept apart. */
export interface LedgerSettings {
  on: boolean;
  host: string;
  port: number;
  database: string;
  user: string;
  /** `none`: without encryption, only to a server on this computer. */
  tls: 'verified' | 'none';
  /** The certificate of the owner's own authority, as PEM; null: those that this computer knows. */
  ca: string | null;
  /** Whether names, addresses and free text about customers go there too. */
  personal: boolean;
  /** Which continuation of the book feeds it. */
  branch: number;
  /** When it was last switched on, UTC. Doing so again starts the feed anew, also one that had stopped. */
  since: string;
}

/** What the feed is doing. `stopped`: somebody has to decide; the other troubles it tries again by itself. */
export type LedgerState =
  | { kind: 'off' }
  | { kind: 'connecting' }
  | { kind: 'sending' }
  | { kind: 'even'; at: string }
  /** `broken`: an error that has no word of ours. */
  | { kind: 'waiting'; why: LedgerCode | 'broken' }
  /** `detail`: of `ahead` the number of changes that the book lacks. */
  | { kind: 'stopped'; why: LedgerCode; detail: string };

/** What became of a try. */
export interface LedgerTried {
  /** Null: the ledger can be used. */
  wrong: LedgerCode | null;
  /** It can be fed, but was prepared by an older program. */
  outdated?: true;
}

export interface LedgerView {
  /** Null until a ledger was set up. */
  settings: LedgerSettings | null;
  /** Whether the password is here: it stays behind when a book moves to another computer. */
  hasPassword: boolean;
  state: LedgerState;
  /** Changes that wait to be sent, and the moment of the oldest. */
  backlog: { changes: number; since: string | null };
}

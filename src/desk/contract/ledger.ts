/** The ledger: the owner's PostgreSQL, to which the book is fed. */
import type { LedgerCode } from '../../ledger/server/ledger-error.ts';
import type { Problem } from './problem.ts';

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

/** A branch of a book that a ledger has. */
export interface LedgerBookRow {
  /** Its number in the ledger. */
  shop: number;
  name: string;
  branch: number;
  /** UTC moment of the last change sent. */
  sentAt: string;
  animals: number;
  /** A newer branch of the same book took its place. */
  superseded: boolean;
}

/** `ledger.books`. */
export interface LedgerBooks {
  /** Null: `books` has at least one. */
  wrong: LedgerCode | null;
  books: LedgerBookRow[];
}

/** `ledger.rebuilding`: a book that is made again from a ledger. */
export type LedgerRebuild =
  | { kind: 'none' }
  /** `of` rows in all; 0 until they are counted. */
  | { kind: 'reading'; rows: number; of: number }
  | { kind: 'checking' }
  | { kind: 'made'; contents: RebuiltContents }
  | { kind: 'failed'; why: LedgerCode | 'broken' }
  /** It could not be written. */
  | { kind: 'unwritten'; problem: Problem };

export interface RebuiltContents {
  shop: string;
  animals: number;
  weighings: number;
  payments: number;
  lastEntry: string | null;
  /** Names and addresses of customers are in it. */
  personal: boolean;
  /** False: a large backlog was on its way, so part of a bill may be missing. */
  whole: boolean;
}

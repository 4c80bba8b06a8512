/** Backups, as a window sees them. */
import type { Problem } from './problem.ts';

export interface BackupMade {
  at: string;
  path: string;
  /** The copy in the second place, if there is one. */
  second: string | null;
  /** Why there is none although a second place is set. */
  secondProblem: Problem | null;
}

/** Something to go back to. */
export interface BackupRow {
  path: string;
  at: string;
  bytes: number;
  /** Opens only with its passphrase. */
  locked: boolean;
  /** Made before the book was brought up to a new version. */
  beforeUpdate: boolean;
  /** Beside the book, in the second place, or a book that another one replaced. */
  place: 'beside' | 'away' | 'set aside';
  /** Whether it is of the book that this desk works in; null where that cannot be told. */
  own: boolean | null;
  /** Of another book: the name of its shop, where it can be read. */
  shop: string;
  /** From before personal details were last removed, and so still holding them. */
  holdsRemoved: boolean;
}

/** What became of the backups from before personal details were removed. */
export interface BackupsRenewed {
  made: string;
  /** The fresh copy in the second place, or null. */
  second: string | null;
  deleted: number;
  /** Files that are still there and want deleting by hand, or by the same call once the second place is there. */
  left: string[];
}

export interface BackupsView {
  /** When this was looked at. */
  at: string;
  /** Why the book is not open. */
  trouble: Problem | null;
  bookPath: string;
  /** Newest first. */
  rows: BackupRow[];
  /** When personal details were last removed; own backups from before still hold them. */
  removedAt: string | null;
  /** Whether copies in the second place are locked. */
  locked: boolean;
  second: { folder: string; there: boolean } | null;
  /** Whether other accounts of this computer can read the book or what lies beside it, and copies in the second place that are not locked. */
  othersRead: { here: boolean; away: boolean };
  /** Why a folder that should have backups shows none: it cannot be read. */
  unreadable: Problem[];
  /** What kept the last backup from being made, beside the book and in the second place. */
  problem: Problem | null;
  secondProblem: Problem | null;
}

/** What is in a backup. */
export interface BackupTried {
  /** It is of this book, from before personal details were last removed: going back to it brings them back. */
  holdsRemoved: boolean;
  animals: number;
  weighings: number;
  payments: number;
  lastEntry: string | null;
  /** Whether it is of the book that this desk works in; null where that cannot be told. */
  own: boolean | null;
  /** The name of its shop; empty where it was never set. */
  shop: string;
  /** Of its records alone: where a date or time could not be read and was set to that of the entry before or after. */
  mended: MendedTime[];
}

/** A column whose dates or times could not be read, and in how many entries. */
export interface MendedTime {
  table: string;
  column: string;
  rows: number;
}

/** A backup or its records were put in the book's place. */
export interface Restored {
  /** Where the replaced book lies, or null if there was none. */
  setAside: string | null;
  mended: MendedTime[];
}

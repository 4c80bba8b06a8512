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

/** A backup or a replaced book. */
export interface BackupRow {
  path: string;
  at: string;
  bytes: number;
  /** Encrypted with a passphrase. */
  locked: boolean;
  /** Made before a migration. */
  beforeUpdate: boolean;
  /** Beside the book, in the second place, or a replaced book. */
  place: 'beside' | 'away' | 'set aside';
  /** Whether it is of the open book; null if unknown. */
  own: boolean | null;
  /** Of another book: the name of its shop, if readable. */
  shop: string;
  /** Older than the last removal of personal details, so it still contains them. */
  holdsRemoved: boolean;
}

/** The result of replacing backups older than a removal of personal details. */
export interface BackupsRenewed {
  made: string;
  /** The fresh copy in the second place, or null. */
  second: string | null;
  deleted: number;
  /** Files that could not be deleted: by hand, or by the same call once the second place is available. */
  left: string[];
}

export interface BackupsView {
  /** The moment of this answer. */
  at: string;
  /** Why the book is not open. */
  trouble: Problem | null;
  bookPath: string;
  /** Newest first. */
  rows: BackupRow[];
  /** When personal details were last removed; older own backups still contain them. */
  removedAt: string | null;
  /** Whether copies in the second place are encrypted. */
  locked: boolean;
  second: { folder: string; there: boolean } | null;
  /**
   * Whether other accounts of this computer can read the book or the files beside it, and unencrypted copies in the
   * second place.
   */
  othersRead: { here: boolean; away: boolean };
  /** Why a folder that should have backups shows none: it cannot be read. */
  unreadable: Problem[];
  /** Photographs whose file is not beside the book. */
  missingPhotos: number;
  /** Why the last backup failed, beside the book and in the second place. */
  problem: Problem | null;
  secondProblem: Problem | null;
}

/** The contents of a backup. */
export interface BackupTried {
  /** It is of this book, and older than the last removal of personal details: restoring brings them back. */
  holdsRemoved: boolean;
  animals: number;
  weighings: number;
  payments: number;
  /** Photographs of it that are neither beside it nor beside the open book. */
  missingPhotos: number;
  lastEntry: string | null;
  /** Whether it is of the open book; null if unknown. */
  own: boolean | null;
  /** The name of its shop; empty if never set. */
  shop: string;
  /** With records only: invalid dates and times that were set to those of a neighbouring entry. */
  repaired: RepairedTime[];
}

/** A column with invalid dates or times, and the number of entries. */
export interface RepairedTime {
  table: string;
  column: string;
  rows: number;
}

/** The result of a restore. */
export interface Restored {
  /** The path of the replaced book, or null if there was none. */
  setAside: string | null;
  repaired: RepairedTime[];
}

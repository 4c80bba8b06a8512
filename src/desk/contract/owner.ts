/** The owner's view: all shops of the ledger side by side. Every answer states its number of animals, batches or bills. */
import type { DistributionSummary } from '../../core/stats/distribution-summary.ts';
import type { OwnerMeasure, OwnerSplit } from '../../ledger/owner/asked.ts';
import type { LedgerCode } from './ledger.ts';
import type { Range } from './words.ts';

export type { OwnerMeasure, OwnerSplit };

/** An answer of the ledger, or why there is none. */
export interface OwnerAnswer<T> {
  wrong: LedgerCode | null;
  /** When it was asked, UTC. */
  at: string;
  answer: T | null;
}

export interface OwnerReport {
  shops: OwnerShop[];
  /** Newest first. */
  seasons: number[];
  /** Most animals first. */
  species: { code: string; name: string }[];
  groups: OwnerGroup[];
  /** Whether there are more groups than are listed. */
  more: boolean;
}

export interface OwnerShop {
  shop: number;
  name: string;
  /** The shop that asks. */
  own: boolean;
  /** When it last sent anything, UTC; null: never. */
  sentAt: string | null;
  /** False while more of it is on its way. */
  whole: boolean;
}

export interface OwnerGroup {
  shop: number;
  /** Null unless the groups are of one season each. */
  season: number | null;
  /** Code and name of the species, likewise. */
  code: string | null;
  speciesName: string | null;
  /** Of money. */
  currency: string | null;
  /** Animals, batches, bills or quotes. */
  n: number;
  /** Of those with the figure: take-home share, fat off target, bill before tax in minor units, take-home off the quote as a fraction. */
  spread: DistributionSummary | null;
  /**
   * Sums by name. Take-home: `takeHomeGrams`. Fat: `onTarget` batches, `ownGrams`, `boughtGrams`. Money: `subtotalMinor`. Quotes: `held`.
   * Backlog: `hours` and `grams` to cut, `unweighed` animals, `trimGrams` and `grindHours` to grind, `ownMinutes` 1 if the shop typed them.
   */
  facts: Readonly<Record<string, number>>;
  /** Its mean less that of this shop's own group of the same kind, with its confidence interval. */
  against: (Range & { level: number }) | null;
}

/** The animals, batches or bills behind a group. */
export interface OwnerRows {
  shop: OwnerShop | null;
  total: number;
  /** At most some hundreds. */
  rows: {
    /** Ticket, or name of a batch. */
    name: string;
    /** Its key in the shop's own book. */
    id: number;
    season: number;
    species: string[];
    tickets: string[];
    /** Day of intake, bill or start. */
    on: string | null;
    /** The figure of the measure; of a backlog the weight in grams. */
    value: number | null;
  }[];
}

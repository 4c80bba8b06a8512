/** Fat on hand: how long it keeps, what became of it, what will be needed, as a window sees them. */
import type { Range } from './words.ts';

/** Against its use-by: `soon` three days before and on the day, `past` after it. */
export type FatKeeps = 'good' | 'soon' | 'past';

export interface FatMoveRow {
  kind: 'bought' | 'saved' | 'into batch' | 'voided' | 'thrown out' | 'counted' | 'handed over';
  /** In is above zero, out below. */
  grams: number;
  typed: string | null;
  note: string;
  at: string;
  by: string;
  /** Name of the batch that it went into or came back from. */
  batch: string | null;
  /** Left in the lot after it. */
  leftGrams: number;
}

/** A lot that a plan did without because it is past its use-by. */
export interface LeftOutLot {
  lotId: number;
  label: string;
  grams: number;
  useBy: string;
}

/** What will be needed of one bought fat, in ranges that 8 in 10 such weeks fall in. */
export interface FatNeed {
  source: string;
  name: string;
  /** Animals in the shop whose trim is not ground yet. */
  animals: number;
  need: Range;
  /** Of all lots within their use-by. */
  onHandGrams: number;
  /** To buy for the animals in the shop: what the need is over what is on hand. */
  order: Range;
  /** Open quotes that no animal came of yet, beside the animals in the shop. */
  quotes: { count: number; need: Range };
}

export interface FatNeeds {
  sources: FatNeed[];
  /** Animals in the shop that were not weighed yet: their need is not known and not in it. */
  unweighed: string[];
}

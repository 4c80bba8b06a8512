/** Fat on hand: shelf life, movements and future need. */
import type { Range } from './words.ts';

/** Relative to its use-by: `soon` from three days before up to the day, `past` after it. */
export type FatKeeps = 'good' | 'soon' | 'past';

export interface FatMoveRow {
  kind: 'bought' | 'saved' | 'into batch' | 'voided' | 'thrown out' | 'counted' | 'handed over';
  /** Positive in, negative out. */
  grams: number;
  typed: string | null;
  note: string;
  at: string;
  by: string;
  /** Name of the batch that it went into or came back from. */
  batch: string | null;
  /** Left in the lot afterwards. */
  leftGrams: number;
}

/** What a lot of fat is called by: an animal's own fat by its ticket, bought fat by its name and the lot's code. */
export interface LotNamed {
  fatName: string;
  lotCode: string;
  ticket: string | null;
}

/** A lot that a plan excluded because it is past its use-by. */
export interface LeftOutLot extends LotNamed {
  lotId: number;
  grams: number;
  useBy: string;
}

/** The future need of one bought fat, with 8-in-10 ranges. */
export interface FatNeed {
  source: string;
  name: string;
  /** Animals in the shop with trim that is not ground yet, or in a batch by a recipe that lacks its bought meat. */
  animals: number;
  need: Range;
  /** Of all lots within their use-by. */
  onHandGrams: number;
  /** To buy for the animals in the shop: the need minus the stock. */
  order: Range;
  /** Open quotes without an animal, in addition to the animals in the shop. */
  quotes: { count: number; need: Range };
}

export interface FatNeeds {
  sources: FatNeed[];
  /** Animals in the shop without a weight: their need is unknown and not included. */
  unweighed: string[];
}

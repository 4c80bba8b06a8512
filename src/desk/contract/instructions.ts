/** A hunter's cutting instructions. Masses in grams, fat as a fraction. */
import type { FatChoice } from './words.ts';

/** The order for one primal. */
export type PrimalUse = 'steaks' | 'roasts' | 'stew' | 'strips' | 'whole' | 'grind';

export interface PrimalOrder {
  /** Code of a primal of the species. */
  primal: string;
  as: PrimalUse;
  /** As the hunter says it: '¾ in' for steaks, '3 lb' for roasts; empty: the shop's usual. */
  size: string;
}

/** A part of the trim that is ground separately first. */
export interface AlsoGround {
  product: string;
  /** Trim for it. */
  grams: number;
  fat: FatChoice;
  targetFat: number | null;
  pattyGrams: number | null;
  /** The recipe of the smokehouse; without one the shop's recipe of the product, if it has any. Its meat counts instead of `fat`. */
  recipeId?: number | null | undefined;
}

/** Whether anybody asked the hunter yet: nobody, told to cut as the shop does, or orders of the hunter's own. */
export type OrdersStatus = 'not asked' | 'standard' | 'ordered';

export interface Instructions {
  /** The hunter was asked, and wants it the shop's usual way. */
  standard?: boolean | undefined;
  /** Share of the take-home lean kept as steaks and roasts; the rest is ground. Follows from `primals` where they are given. */
  cutsShare: number;
  /** The order for each primal; empty: only `cutsShare` applies. */
  primals: PrimalOrder[];
  fat: FatChoice;
  targetFat: number | null;
  grindProduct: string;
  /** As of `AlsoGround`, for what is left of the trim. */
  recipeId?: number | null | undefined;
  /** Weight of a patty, or null for bulk. */
  pattyGrams: number | null;
  alsoGround: AlsoGround[];
  packageGrams: number;
  /** How many of each extra of the price book, by code. */
  pricedExtras: Record<string, number>;
  /** Asked for in words of its own: a note that costs nothing. */
  extras: string[];
  note: string;
}

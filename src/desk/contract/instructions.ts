/** What a hunter wants made of an animal. Masses in grams, fat as a fraction. */
import type { FatChoice } from './words.ts';

/** What becomes of one primal. */
export type PrimalUse = 'steaks' | 'roasts' | 'stew' | 'strips' | 'whole' | 'grind';

export interface PrimalOrder {
  /** Code of a primal of the species. */
  primal: string;
  as: PrimalUse;
  /** As the hunter says it: '¾ in' for steaks, '3 lb' for roasts; empty: as the shop does. */
  size: string;
}

/** So much of the trim ground to something of its own before the rest. */
export interface AlsoGround {
  product: string;
  /** Trim that goes into it. */
  grams: number;
  fat: FatChoice;
  targetFat: number | null;
  pattyGrams: number | null;
}

export interface Instructions {
  /** Share of the take-home lean kept as steaks and roasts; the rest is ground. Follows from `primals` where they are given. */
  cutsShare: number;
  /** What becomes of each primal; empty: `cutsShare` alone says it. */
  primals: PrimalOrder[];
  fat: FatChoice;
  targetFat: number | null;
  grindProduct: string;
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

import { GRAMS_PER } from '../../core/units.ts';
import type { Instructions } from '../shapes.ts';
import type { Draw } from './draw.ts';
import { ORDERS, type InventedSeason } from './invention.ts';

export interface Order {
  instructions: Instructions;
  /** Trim kept for the next sausage day, in grams; 0 for none. */
  sausageGrams: number;
}

/** What a hunter asks for. Fat is bought only in the season that the demo shows. */
export function orderOf(
  season: InventedSeason,
  { savesFat, pools }: { savesFat: boolean; pools: boolean },
  draw: Draw,
): Order {
  const { sausage } = ORDERS;
  const bought = draw.pickWeighted(ORDERS.grind);
  const grind =
    savesFat && draw.maybe(ORDERS.ownFatGround) ? { fat: 'own', targetFat: ORDERS.ownFatTarget } : bought;
  const wantsSausage = season.pools.length > 0 && pools && draw.maybe(sausage.share);
  const sausageGrams = draw.whole(...sausage.lb) * GRAMS_PER.lb;
  const note = draw.pick(ORDERS.notes);
  return {
    instructions: {
      cutsShare: draw.pickWeighted(ORDERS.cutsShare),
      fat: season.mistakes ? grind.fat : 'none',
      targetFat: season.mistakes ? grind.targetFat : null,
      grindProduct: 'Ground',
      primals: [],
      pattyGrams: null,
      alsoGround: [],
      packageGrams: draw.pickWeighted(ORDERS.packageLb) * GRAMS_PER.lb,
      extras: draw.pickWeighted(ORDERS.extras),
      note: wantsSausage ? `${Math.round(sausageGrams / GRAMS_PER.lb)} lb of trim for sausage` : note,
    },
    sausageGrams: wantsSausage ? sausageGrams : 0,
  };
}

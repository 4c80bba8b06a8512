import { receivedPrimals, wholeCutsShare } from '../../core/species/cutting.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { Brought, Instructions } from '../../desk/contract/contract.ts';
import type { Draw } from './draw.ts';
import { ORDERS, type InventedSeason } from './invention.ts';
import { piecesNear } from './pieces.ts';

export interface Order {
  instructions: Instructions;
  /** Trim for the next sausage day, in grams; 0 for none. */
  sausageGrams: number;
  /** Trim for jerky of this hunter alone, in grams; 0 for none. */
  jerkyGrams: number;
}

/** The inputs of an order. */
interface Wishes {
  profile: SpeciesProfile;
  brought: Brought;
  parts: readonly { primal: string; count: number }[];
  savesFat: boolean;
  /** Whether the hunter's meat may be mixed with others'. */
  pools: boolean;
}

/**
 * A hunter's orders. Fat is bought only in the current season. `pieces` is a separate random stream for orders by
 * piece, so that they do not change the animal.
 */
export function orderOf(season: InventedSeason, wishes: Wishes, draw: Draw, pieces: Draw): Order {
  const { sausage, pattyOz } = ORDERS;
  const bought = draw.pickWeighted(ORDERS.grind);
  const grind =
    wishes.savesFat && draw.maybe(ORDERS.ownFatGround)
      ? { fat: 'own', targetFat: ORDERS.ownFatTarget }
      : bought;
  const wantsSausage = season.pools.length > 0 && wishes.pools && draw.maybe(sausage.share);
  const sausageGrams = draw.whole(...sausage.lb) * GRAMS_PER.lb;
  const note = draw.pick(ORDERS.notes);
  const cut = cutOf(wishes, draw.pickWeighted(ORDERS.cutsShare), pieces);
  const packageGrams = draw.pickWeighted(ORDERS.packageLb) * GRAMS_PER.lb;
  const extras = draw.pickWeighted(ORDERS.extras);
  const noteRepeatsOrder = cut.primals.length > 0 && ORDERS.pieces.saysTheSame.includes(note);
  return {
    instructions: {
      ...cut,
      fat: season.mistakes ? grind.fat : 'none',
      targetFat: season.mistakes ? grind.targetFat : null,
      grindProduct: 'Ground',
      pattyGrams: extras.includes('patties') ? pattyOz * GRAMS_PER.oz : null,
      alsoGround: wantsSausage ? [sausageOf(sausageGrams, pieces)] : [],
      packageGrams,
      pricedExtras: Object.fromEntries(extras.map((code) => [code, 1])),
      extras: [],
      note: noteRepeatsOrder ? '' : note,
    },
    sausageGrams: wantsSausage ? sausageGrams : 0,
    jerkyGrams: 0,
  };
}

function cutOf(
  { profile, brought, parts }: Wishes,
  cutsShare: number,
  pieces: Draw,
): Pick<Instructions, 'cutsShare' | 'primals'> {
  const there = receivedPrimals(profile.primals, parts);
  const byPiece = pieces.maybe(ORDERS.pieces.share) && brought !== 'boned';
  const primals = byPiece ? piecesNear(there, cutsShare, pieces) : null;
  return primals ? { cutsShare: wholeCutsShare(there, primals), primals } : { cutsShare, primals: [] };
}

function sausageOf(grams: number, draw: Draw): Instructions['alsoGround'][number] {
  const { products, fats } = ORDERS.sausage;
  const which = draw.whole(0, products.length - 1);
  const { fat = 'none', targetFat = null } = fats[which] ?? {};
  return { product: products[which] ?? 'Sausage', grams, fat, targetFat, pattyGrams: null };
}

/** Ground jerky of a single hunter's trim, for some animals of the current season. */
import { GRAMS_PER } from '../../core/values/units.ts';
import { drawing } from './draw.ts';
import { ORDERS, SEASONS, type InventedSeason } from './invention.ts';
import type { Order } from './order.ts';
import { leavesTrim } from './sausage.ts';

/** A random stream of its own, so that it changes nothing else of the animal. */
const STREAM = 71;

export function withJerky(
  order: Order,
  { season, number, trimGrams }: { season: InventedSeason; number: number; trimGrams: number },
): Order {
  const { share, lb, product } = ORDERS.jerky;
  const draw = drawing(SEASONS.seed, season.season, number, STREAM);
  const grams = draw.whole(...lb) * GRAMS_PER.lb;
  if (!season.mistakes || !draw.maybe(share) || !leavesTrim(grams, trimGrams)) return order;
  const jerky = { product, grams, fat: 'none', targetFat: null, pattyGrams: null };
  return { ...order, instructions: { ...order.instructions, alsoGround: [jerky] }, jerkyGrams: grams };
}

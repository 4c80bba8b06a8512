/** The cost of the bought fat in some grinds. */
import type { SeasonFat } from '../../book/sums/season-money.ts';
import { GRAMS_PER } from '../../core/values/units.ts';

interface FatSpent {
  usedGrams: number;
  /** Of it, from lots without a price. */
  unpricedGrams: number;
  /** Minor units, of the lots with a price. */
  cost: number;
  /** By weight used; null where no lot has a price. */
  perKg: number | null;
  /** Number of lots with a price. */
  lots: number;
}

/** @example fatSpent([{ lot_id: 1, product: 'Ground', grams: 1000, cost_minor: 400, cost_unit: 'kg' }]).perKg // 400 */
export function fatSpent(used: readonly SeasonFat[]): FatSpent {
  const usedGrams = sum(used.map(({ grams }) => grams));
  const priced = used.flatMap(({ lot_id, grams, cost_minor, cost_unit }) =>
    cost_minor === null || cost_unit === null
      ? []
      : [{ lot_id, grams, cost: (cost_minor * grams) / GRAMS_PER[cost_unit] }],
  );
  const pricedGrams = sum(priced.map(({ grams }) => grams));
  const cost = sum(priced.map((one) => one.cost));
  return {
    usedGrams,
    unpricedGrams: usedGrams - pricedGrams,
    cost,
    perKg: pricedGrams > 0 ? (cost * 1000) / pricedGrams : null,
    lots: new Set(priced.map(({ lot_id }) => lot_id)).size,
  };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, one) => total + one, 0);
}

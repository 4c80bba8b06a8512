/** Why a billed line differs from the quoted one: quantity or price. */
import { decimalOf, timesDecimal, timesRate } from '../../core/values/money-sums.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import type { MassUnit } from '../contract/contract.ts';

/** One side of a line. For a percentage, the quantity is the rate and the unit price is its base. */
export interface Side {
  basis: string;
  quantity: number;
  unit: MassUnit | null;
  unitPriceMinor: number;
  amountMinor: number;
}

export interface Split {
  /** Effect of the changed quantity, at the quoted price. */
  moreMinor: number;
  /** Effect of the changed price, on the billed quantity. */
  priceMinor: number;
}

/**
 * Splits billed − quoted exactly in two, in minor units: `moreMinor` is (billed quantity − quoted quantity) × quoted
 * price, rounded as on a bill, and `priceMinor` the rest. If only one of the two changed, the whole difference
 * belongs to it. For a percentage, the rate is the price and its base the quantity. A line priced in another unit is
 * compared by weight.
 * @example
 * // 20 lb at $0.95 = $19.00 became 30 lb at $1.00 = $30.00: ten more at $0.95 are $9.50, 5 cents on each of 30 $1.50.
 * splitDifference(
 *   { basis: 'hanging', quantity: 20, unit: 'lb', unitPriceMinor: 95, amountMinor: 1900 },
 *   { basis: 'hanging', quantity: 30, unit: 'lb', unitPriceMinor: 100, amountMinor: 3000 },
 * ); // { moreMinor: 950, priceMinor: 150 }
 */
export function splitDifference(quoted: Side, billed: Side): Split {
  const difference = billed.amountMinor - quoted.amountMinor;
  const [before, after] = [pricedAs(quoted), pricedAs(billed)];
  if (before.price === after.price && quoted.unit === billed.unit)
    return { moreMinor: difference, priceMinor: 0 };
  if (before.quantity === after.quantity && quoted.unit === billed.unit)
    return { moreMinor: 0, priceMinor: difference };
  const moreMinor = atQuotedPrice(quoted, billed) - quoted.amountMinor;
  return { moreMinor, priceMinor: difference - moreMinor };
}

function pricedAs({ basis, quantity, unitPriceMinor }: Side): { quantity: number; price: number } {
  return basis === 'percent'
    ? { quantity: unitPriceMinor, price: quantity }
    : { quantity, price: unitPriceMinor };
}

function atQuotedPrice(quoted: Side, billed: Side): number {
  if (quoted.basis === 'percent')
    return timesDecimal(billed.unitPriceMinor, decimalOf(quoted.quantity, 'quantity'));
  if (quoted.unit && billed.unit)
    return timesRate(quoted.unitPriceMinor, billed.quantity * GRAMS_PER[billed.unit], quoted.unit);
  return timesDecimal(quoted.unitPriceMinor, decimalOf(billed.quantity, 'quantity'));
}

/** Why a line of the bill is not what was quoted: more or less of it, or another price. */
import { decimalOf, timesDecimal, timesRate } from '../../core/values/money-sums.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import type { MassUnit } from '../contract/contract.ts';

/** One side of a line; for a percentage the quantity is the rate and the unit price the sum that it is of. */
export interface Side {
  basis: string;
  quantity: number;
  unit: MassUnit | null;
  unitPriceMinor: number;
  amountMinor: number;
}

export interface Split {
  /** What more or less of it makes, at the quoted price. */
  moreMinor: number;
  /** What the other price makes, on what was really there. */
  priceMinor: number;
}

/**
 * Splits billed − quoted exactly in two, in minor units: `moreMinor` is (billed quantity − quoted quantity) × quoted
 * price, rounded as a bill rounds, and `priceMinor` the rest; if only one of the two changed, all is its own.
 * A percentage is the price and the sum that it is of the quantity. A line priced in another unit is compared by weight.
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

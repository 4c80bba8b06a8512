import { addDecimals, decimalOf, percentOf, timesDecimal, type Decimal } from '../values/money-sums.ts';

/** Where tax is rounded: on each line, or once on all lines that share a rate. */
export type TaxRule = 'per line' | 'per bill';

/** A part of a line's amount with one tax rate. */
export interface TaxedPart {
  readonly amountMinor: number;
  /** Fraction, e.g. 0.06. */
  readonly rate: number;
}

/**
 * Tax of each line in minor units; a line is given as its parts, one per rate. `per line` rounds each line once. `per
 * bill` rounds the running sum of all parts of one rate and gives each line its increment, so that the lines' taxes
 * sum exactly to the tax of the total.
 * @example taxOf([[{ amountMinor: 50, rate: 0.05 }], [{ amountMinor: 50, rate: 0.05 }]], 'per bill') // [3, 2]
 */
export function taxOf(lines: readonly (readonly TaxedPart[])[], rule: TaxRule): number[] {
  if (rule === 'per line') return lines.map((parts) => timesDecimal(1, exactTax(parts)));
  const running = new Map<number, number>();
  return lines.map((parts) =>
    parts.reduce((tax, { amountMinor, rate }) => {
      const before = running.get(rate) ?? 0;
      running.set(rate, before + amountMinor);
      return tax + percentOf(before + amountMinor, rate) - percentOf(before, rate);
    }, 0),
  );
}

function exactTax(parts: readonly TaxedPart[]): Decimal {
  return parts.reduce<Decimal>((sum, { amountMinor, rate }) => {
    const { digits, decimals } = decimalOf(rate, 'taxRate');
    return addDecimals(sum, { digits: digits * BigInt(amountMinor), decimals });
  }, NOTHING);
}

const NOTHING: Decimal = { digits: 0n, decimals: 0 };

/** A charged line before tax, and the line for the minimum charge. */
import type { PriceLine } from './lines.ts';
import type { TaxedPart } from './tax.ts';

export interface Untaxed {
  line: PriceLine;
  quantity: number;
  unitPriceMinor: number;
  amountMinor: number;
  /** The amount by tax rate; the parts sum to it. */
  taxed: readonly TaxedPart[];
}

/** A line that is taxed at its own rate. */
export function ownRate(line: PriceLine, amount: Omit<Untaxed, 'line' | 'taxed'>): Untaxed {
  return { line, ...amount, taxed: [{ amountMinor: amount.amountMinor, rate: line.taxRate ?? 0 }] };
}

/** The minimum charge: lifts the sum to the highest minimum that applies, if it is lower; it has its own tax rate. */
export function minimumLine(lines: readonly PriceLine[], chargedMinor: number): Untaxed[] {
  const [highest] = lines
    .filter(({ basis }) => basis === 'minimum')
    .toSorted((a, b) => (b.amountMinor ?? 0) - (a.amountMinor ?? 0) || (a.taxRate ?? 0) - (b.taxRate ?? 0));
  const lacking = (highest?.amountMinor ?? 0) - chargedMinor;
  if (!highest || lacking <= 0) return [];
  return [ownRate(highest, { quantity: 1, unitPriceMinor: lacking, amountMinor: lacking })];
}

/** Before tax. */
export function untaxedSum(lines: readonly Untaxed[]): number {
  return lines.reduce((all, { amountMinor }) => all + amountMinor, 0);
}

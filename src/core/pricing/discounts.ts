/** Adjustments of one bill or quote: other prices, free lines, and discounts on the total. */
import type { Untaxed } from './adjust.ts';
import { ownRate, untaxedSum } from './adjust.ts';
import { apportionRatio, sumsByRate } from './apportion-rates.ts';
import type { PriceLine } from './lines.ts';
import { mayHaveOtherPrice } from './other-price.ts';
import { percentLines } from './percent.ts';
import { ValidationError } from '../values/validation-error.ts';

/** An adjustment; `code` and `label` are those of its line. Money in minor units, rates as fractions. */
export type Adjustment =
  | {
      readonly kind: 'free line';
      readonly code: string;
      readonly label: string;
      readonly amountMinor: number;
      readonly taxRate: number;
    }
  | {
      readonly kind: 'amount off';
      readonly code: string;
      readonly label: string;
      readonly amountMinor: number;
    }
  | { readonly kind: 'percent off'; readonly code: string; readonly label: string; readonly rate: number }
  | {
      readonly kind: 'other price';
      readonly lineCode: string;
      readonly label: string;
      readonly amountMinor: number;
    };

/** The lines with adjusted prices and labels; the last adjustment of a line counts. */
export function withOtherPrices(
  lines: readonly PriceLine[],
  adjustments: readonly Adjustment[],
): readonly PriceLine[] {
  return lines.map((line) => {
    const other = adjustments.findLast((one) => one.kind === 'other price' && one.lineCode === line.code);
    if (other?.kind !== 'other price' || !mayHaveOtherPrice(line.basis)) return line;
    return { ...line, label: other.label, amountMinor: other.amountMinor };
  });
}

/** Free lines, each taxed at its own rate. @throws ValidationError `amount.negative` */
export function freeLines(adjustments: readonly Adjustment[]): Untaxed[] {
  return adjustments.flatMap((one) => {
    if (one.kind !== 'free line') return [];
    const { code, label, amountMinor, taxRate } = one;
    if (amountMinor < 0) throw new ValidationError('amount.negative', 'adjustments', { code });
    const line: PriceLine = { code, label, basis: 'free', taxRate };
    return [ownRate(line, { quantity: 1, unitPriceMinor: amountMinor, amountMinor })];
  });
}

/**
 * Discounts on everything charged so far, including the minimum charge: percentages first, each of the same sum, then
 * amounts, each limited to what is left, so that the sum never becomes negative. Each is taxed at the rates of its
 * lines, in proportion.
 * @throws ValidationError `price.discount-over-all` if the percentages exceed 100 %
 */
export function discountLines(adjustments: readonly Adjustment[], charged: readonly Untaxed[]): Untaxed[] {
  if (untaxedSum(charged) <= 0) return [];
  const percents = adjustments.flatMap((one): PriceLine[] =>
    one.kind === 'percent off'
      ? [{ code: one.code, label: one.label, basis: 'percent', rate: -one.rate }]
      : [],
  );
  const off = percentLines(percents, charged);
  for (const one of adjustments) {
    if (one.kind !== 'amount off') continue;
    const before = [...charged, ...off];
    const left = untaxedSum(before);
    const amount = Math.min(one.amountMinor, left);
    if (amount <= 0) continue;
    const taxed = apportionRatio(sumsByRate(before), {
      of: BigInt(amount),
      in: BigInt(left),
      wanted: amount,
      sign: -1,
    });
    const line: PriceLine = { code: one.code, label: one.label, basis: 'discount' };
    off.push({ line, quantity: 1, unitPriceMinor: -amount, amountMinor: -amount, taxed });
  }
  return off;
}

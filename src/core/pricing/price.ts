/** Prices quotes and bills with the same lines, on predicted or on weighed amounts. */
import { boundedMinor, decimalNumber, MINUTES, timesDecimal, timesMinutes } from '../values/money-sums.ts';
import { minimumLine, ownRate, untaxedSum, type Untaxed } from './adjust.ts';
import { checkAmounts, checkLine } from './check.ts';
import { coverOf, type Cover } from './cover.ts';
import { depositAsked } from './deposit.ts';
import { discountLines, freeLines, withOtherPrices, type Adjustment } from './discounts.ts';
import { applies, leastOf, quantityOf } from './lines.ts';
import type { Amounts, Basis, PriceLine } from './lines.ts';
import { percentLines } from './percent.ts';
import { taxOf, type TaxRule } from './tax.ts';

export type { Amounts, Basis, PriceLine } from './lines.ts';
export type { Adjustment } from './discounts.ts';
export type { TaxRule } from './tax.ts';

/** One line of a quote or bill: quantity × unit price, rounded to a whole minor unit. */
export interface ChargedLine {
  code: string;
  label: string;
  basis: Basis;
  /** In the unit of the line, for hours rounded to a number; for `percent` the rate, for `minimum` 1. */
  quantity: number;
  /** For `percent` the base of the rate. */
  unitPriceMinor: number;
  amountMinor: number;
  taxMinor: number;
}

export interface Charge {
  lines: ChargedLine[];
  /** Sum of the lines before tax. */
  subtotalMinor: number;
  /** Sum of the lines' taxes. */
  taxMinor: number;
  totalMinor: number;
  /** The deposit to request in advance, never more than the total; it has no line. */
  depositMinor: number;
  /** Products that were made but no line charges. */
  uncovered: readonly string[];
}

/**
 * Prices a job. A line is charged when all its filters match; where several match, all are charged. Lines with
 * nothing to charge (no fat added, extra not ordered) are left out. Each amount is rounded half away from zero
 * to a whole minor unit; the lines then sum to the total exactly. In this order:
 * 1. lines by animal, weight, package, hour and extra, at the price that the adjustments give them, for no less than
 *    the line's own minimum, and free lines;
 * 2. `percent` lines, each on the sum of 1 (two discounts of 10 % take 20 %, not 19 %);
 * 3. `minimum`: what the sum of 1 and 2 lacks to the highest minimum that applies;
 * 4. discounts of the adjustments on the sum of 1 to 3, never below zero;
 * 5. tax: `per line` rounds each line, `per bill` rounds the sum of all that has one tax rate; a `percent` line or a
 *    discount is taxed at the rates of the lines it is of, in proportion to them, whatever rate of its own it has;
 * 6. `deposit`: fixed, or a rate of the total with tax.
 *
 * @throws ValidationError `price.no-code`, `price.no-unit`, `price.not-named`, `price.amount-or-rate`,
 *   `price.negative`, `price.least`, `price.discount-over-all` (discounts of more than the whole), `money.not-whole`,
 *   `money.too-large`, `share.out-of-range`, `amount.negative`, `number.not-finite`
 * @example
 * // 100 lb hanging at $1.10, discount 10 %: 11000 − 1100 = 9900
 * priceLines({
 *   lines: [
 *     { code: 'cut', label: 'Cut and wrap', basis: 'hanging', unit: 'lb', amountMinor: 110 },
 *     { code: 'early', label: 'Early bird', basis: 'percent', rate: -0.1 },
 *   ],
 *   amounts: { species: 'elk', brought: 'whole', hangingGrams: 45359.237, groundGrams: 0 },
 * }).totalMinor;
 */
export function priceLines(job: {
  readonly lines: readonly PriceLine[];
  readonly amounts: Amounts;
  /** Where tax is rounded; `per bill` when left out. */
  readonly taxRule?: TaxRule;
  /** Adjustments of this bill or quote. */
  readonly adjustments?: readonly Adjustment[];
}): Charge {
  for (const [i, line] of job.lines.entries()) checkLine(line, i);
  checkAmounts(job.amounts);
  const adjustments = job.adjustments ?? [];
  const listed = job.lines.filter((line) => applies(line, job.amounts));
  const matching = withOtherPrices(listed, adjustments);
  const cover = coverOf(matching, job.amounts);

  const charged: Untaxed[] = matching.flatMap((line) => ownAmount(line, job.amounts, cover));
  charged.push(...freeLines(adjustments));
  charged.push(...percentLines(matching, charged));
  charged.push(...minimumLine(matching, untaxedSum(charged)));
  charged.push(...discountLines(adjustments, charged));

  const taxes = taxOf(
    charged.map(({ taxed }) => taxed),
    job.taxRule ?? 'per bill',
  );
  const lines = charged.map(({ line, quantity, unitPriceMinor, amountMinor }, i) => {
    const { code, label, basis } = line;
    return { code, label, basis, quantity, unitPriceMinor, amountMinor, taxMinor: taxes[i] as number };
  });
  const subtotalMinor = untaxedSum(charged);
  const taxMinor = taxes.reduce((all, tax) => all + tax, 0);
  const totalMinor = subtotalMinor + taxMinor;
  boundedMinor(totalMinor, 'totalMinor');
  const depositMinor = depositAsked(matching, job.amounts, totalMinor);
  return { lines, subtotalMinor, taxMinor, totalMinor, depositMinor, uncovered: cover.uncovered };
}

function ownAmount(line: PriceLine, amounts: Amounts, cover: Cover): Untaxed[] {
  if (line.basis === 'hour') return hourAmount(line, amounts.minutes?.[line.code] ?? 0);
  const quantity = quantityOf(line, amounts, cover.gramsOf);
  if (!quantity || quantity.digits === 0n) return [];
  const least = leastOf(line, quantity);
  const charged = least ?? quantity;
  const unitPriceMinor = line.amountMinor ?? 0;
  const amountMinor = boundedMinor(timesDecimal(unitPriceMinor, charged), 'amountMinor');
  const named = least && line.leastLabel ? { ...line, label: line.leastLabel } : line;
  return [ownRate(named, { quantity: decimalNumber(charged), unitPriceMinor, amountMinor })];
}

/** A third of an hour has no finite decimal, so the price is multiplied by minutes and divided once. */
function hourAmount(line: PriceLine, minutes: number): Untaxed[] {
  if (minutes === 0) return [];
  const unitPriceMinor = line.amountMinor ?? 0;
  const amountMinor = boundedMinor(timesMinutes(unitPriceMinor, minutes), 'amountMinor');
  return [ownRate(line, { quantity: minutes / MINUTES, unitPriceMinor, amountMinor })];
}

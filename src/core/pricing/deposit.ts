/** The deposit requested before anything is weighed. */
import { percentOf } from '../values/money-sums.ts';
import { applies, type Amounts, type PriceLine } from './lines.ts';

/**
 * The deposit requested at drop-off, in minor units: fixed deposits in full, rates of the expected price. It never
 * exceeds an expected price.
 * @param expectedMinor the quoted price; null without a quote, so that rates add nothing
 * @throws ValidationError `money.not-whole`, `number.not-finite`, `money.too-large`
 * @example
 * // $50, and 10 % of a quote of $320: 5000 + 3200
 * depositAsked(
 *   [{ code: 'd', label: 'Deposit', basis: 'deposit', amountMinor: 5000 }, { code: 'r', label: 'Rate', basis: 'deposit', rate: 0.1 }],
 *   { species: 'elk', brought: 'whole', hangingGrams: 0, groundGrams: 0 },
 *   32_000,
 * ); // 8200
 */
export function depositAsked(
  lines: readonly PriceLine[],
  amounts: Amounts,
  expectedMinor: number | null,
): number {
  const requested = lines
    .filter((line) => line.basis === 'deposit' && applies(line, amounts))
    .reduce((sum, line) => sum + (line.amountMinor ?? percentOf(expectedMinor ?? 0, line.rate ?? 0)), 0);
  return Math.max(0, expectedMinor === null ? requested : Math.min(requested, expectedMinor));
}

/** What a hunter is asked to pay in advance, before anything is weighed. */
import { percentOf } from '../values/money-sums.ts';
import { applies, type Amounts, type PriceLine } from './lines.ts';

/**
 * The deposit asked at drop-off, in minor units: fixed deposits in full, rates of what the job is expected to cost.
 * Never more than the expected price where one is known.
 * @param expectedMinor what was quoted; null where nothing was, so that a rate asks for nothing
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
  const asked = lines
    .filter((line) => line.basis === 'deposit' && applies(line, amounts))
    .reduce((sum, line) => sum + (line.amountMinor ?? percentOf(expectedMinor ?? 0, line.rate ?? 0)), 0);
  return Math.max(0, expectedMinor === null ? asked : Math.min(asked, expectedMinor));
}

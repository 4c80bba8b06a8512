/** Discounts and surcharges in percent: amounts and tax rates. */
import { addDecimals, decimalNumber, decimalOf, timesDecimal, type Decimal } from '../values/money-sums.ts';
import { apportionRatio, sumsByRate } from './apportion-rates.ts';
import { untaxedSum, type Untaxed } from './adjust.ts';
import type { PriceLine } from './lines.ts';
import type { TaxedPart } from './tax.ts';
import { ValidationError } from '../values/validation-error.ts';

/**
 * Each line gets the increment that it adds to the running percentage, so that the lines sum to the exact share.
 *
 * A percentage off the total is that percentage off each item, and tax is due on the final price (Texas Comptroller,
 * STAR 200904303L of 24 April 2009: 10 % off all purchases makes a $150 dress $135, taxed as $135; Minnesota Revenue,
 * "Discounts and Coupons": tax "after you subtract the discount" unless a third party pays it back; New York
 * TB-ST-860 requires separating taxable and exempt lines of a bill). So a discount or surcharge has no rate of its
 * own; it is taxed at the rates of its lines, in proportion. Whole minor units are divided by largest remainders,
 * ties to the lower tax rate, so that the order of the lines does not matter.
 *
 * @throws ValidationError `price.discount-over-all`
 * @example
 * // $100 tax-free and $50 at 6 %, less 10 %: −1000 at 0 and −500 at 0.06, so the tax is 300 − 30 = 270
 */
export function percentLines(lines: readonly PriceLine[], plain: readonly Untaxed[]): Untaxed[] {
  const percents = lines.filter(({ basis }) => basis === 'percent');
  if (percents.length === 0) return [];
  const total = untaxedSum(plain);
  const sums = sumsByRate(plain);
  let running: Decimal = { digits: 0n, decimals: 0 };
  let apportioned = apportionPercentage(running, total, sums);
  const steps = new Map<PriceLine, Untaxed>();
  for (const line of percents.toSorted(byCode)) {
    const before = apportioned;
    running = addDecimals(running, decimalOf(line.rate ?? 0, 'rate'));
    apportioned = apportionPercentage(running, total, sums);
    const taxed = apportioned.map(({ rate, amountMinor }, i) => ({
      rate,
      amountMinor: amountMinor - (before[i] as TaxedPart).amountMinor,
    }));
    const amountMinor = taxed.reduce((sum, part) => sum + part.amountMinor, 0);
    steps.set(line, { line, quantity: line.rate ?? 0, unitPriceMinor: total, amountMinor, taxed });
  }
  if (decimalNumber(running) < -1)
    throw new ValidationError('price.discount-over-all', 'lines', { rate: decimalNumber(running) });
  return percents.map((line) => steps.get(line) as Untaxed);
}

/** A fixed order, so that the listed order of lines does not change a cent. */
function byCode(a: PriceLine, b: PriceLine): number {
  return a.code === b.code ? (a.rate ?? 0) - (b.rate ?? 0) : a.code < b.code ? -1 : 1;
}

/** The percentage of the total in whole minor units, divided among the tax rates. */
function apportionPercentage(percentage: Decimal, total: number, sums: readonly TaxedPart[]): TaxedPart[] {
  const sign = percentage.digits < 0n ? -1 : 1;
  const size = percentage.digits < 0n ? -percentage.digits : percentage.digits;
  const wanted = sign * timesDecimal(total, percentage);
  return apportionRatio(sums, { of: size, in: 10n ** BigInt(percentage.decimals), wanted, sign });
}

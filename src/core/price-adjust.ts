/** The lines that depend on the others: surcharges, discounts and the minimum charge. */
import { addDecimals, decimalNumber, decimalOf, timesDecimal, type Decimal } from './money-sums.ts';
import type { PriceLine } from './price-lines.ts';
import { CoreProblem } from './problem.ts';

/** A charged line before tax. */
export interface Untaxed {
  line: PriceLine;
  quantity: number;
  unitPriceMinor: number;
  amountMinor: number;
}

/** Each line gets the step that it adds to the running rate, so that together they take the exact share. */
export function percentLines(lines: readonly PriceLine[], plain: number): Untaxed[] {
  let running: Decimal = { digits: 0n, decimals: 0 };
  const charged = lines
    .filter(({ basis }) => basis === 'percent')
    .map((line) => {
      const rate = line.rate ?? 0;
      const before = timesDecimal(plain, running);
      running = addDecimals(running, decimalOf(rate, 'rate'));
      const amountMinor = timesDecimal(plain, running) - before;
      return { line, quantity: rate, unitPriceMinor: plain, amountMinor };
    });
  if (decimalNumber(running) < -1)
    throw new CoreProblem('price.discount-over-all', 'lines', { rate: decimalNumber(running) });
  return charged;
}

/** The line that lifts the sum to the highest minimum that applies, where it lacks anything. */
export function minimumLine(lines: readonly PriceLine[], soFar: number): Untaxed[] {
  const highest = lines
    .filter(({ basis }) => basis === 'minimum')
    .reduce<PriceLine | null>(
      (best, line) => (!best || (line.amountMinor ?? 0) > (best.amountMinor ?? 0) ? line : best),
      null,
    );
  const lacking = (highest?.amountMinor ?? 0) - soFar;
  if (!highest || lacking <= 0) return [];
  return [{ line: highest, quantity: 1, unitPriceMinor: lacking, amountMinor: lacking }];
}

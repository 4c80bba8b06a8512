import { percentOf } from './money-sums.ts';

/** Where tax is rounded: on each line, or once on all lines that share a rate. */
export type TaxRule = 'per line' | 'per bill';

/**
 * Tax of each line in minor units. `per bill` rounds the running sum of each rate's lines and gives every line the
 * step that it adds, so that the lines' taxes sum exactly to the tax of the sum.
 * @example taxOf([{ amountMinor: 50, rate: 0.05 }, { amountMinor: 50, rate: 0.05 }], 'per bill') // [3, 2]
 */
export function taxOf(
  lines: readonly { readonly amountMinor: number; readonly rate: number }[],
  rule: TaxRule,
): number[] {
  const running = new Map<number, number>();
  return lines.map(({ amountMinor, rate }) => {
    if (rule === 'per line') return percentOf(amountMinor, rate);
    const before = running.get(rate) ?? 0;
    running.set(rate, before + amountMinor);
    return percentOf(before + amountMinor, rate) - percentOf(before, rate);
  });
}

/** Divides a discount or surcharge among the tax rates of its lines. */
import type { Untaxed } from './adjust.ts';
import type { TaxedPart } from './tax.ts';

/** The lines' amounts by tax rate, lowest rate first. */
export function sumsByRate(lines: readonly Untaxed[]): TaxedPart[] {
  const sums = new Map<number, number>();
  for (const { taxed } of lines)
    for (const { rate, amountMinor } of taxed) sums.set(rate, (sums.get(rate) ?? 0) + amountMinor);
  return [...sums].map(([rate, amountMinor]) => ({ rate, amountMinor })).sort((a, b) => a.rate - b.rate);
}

/**
 * The fraction `of`/`in` of each sum in whole minor units, by largest remainders; ties go to the lower rate. Not
 * `apportion`, because the sum at one rate may be negative (a discount in money) and even cancel the others.
 * @param share `wanted`: the total of the parts before the sign; `sign`: −1 for a discount
 */
export function apportionRatio(
  sums: readonly TaxedPart[],
  share: { of: bigint; in: bigint; wanted: number; sign: 1 | -1 },
): TaxedPart[] {
  const quotas = sums.map(({ amountMinor }, index) => {
    const exact = BigInt(amountMinor) * share.of;
    const remainder = ((exact % share.in) + share.in) % share.in;
    return { index, whole: Number((exact - remainder) / share.in), rest: remainder };
  });
  const left = share.wanted - quotas.reduce((sum, { whole }) => sum + whole, 0);
  const more = new Set(
    quotas
      .toSorted((a, b) => (a.rest === b.rest ? a.index - b.index : a.rest > b.rest ? -1 : 1))
      .slice(0, left)
      .map(({ index }) => index),
  );
  return sums.map(({ rate }, i) => {
    const amountMinor = (quotas[i]?.whole ?? 0) + (more.has(i) ? 1 : 0);
    return { rate, amountMinor: amountMinor === 0 ? 0 : share.sign * amountMinor };
  });
}

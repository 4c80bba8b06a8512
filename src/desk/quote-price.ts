/** What a quoted animal will cost, line by line, at each end of its ranges. */
import { priceLines, type Amounts } from '../core/price.ts';
import { pricesInForce } from './prices.ts';
import type { Outcome } from './quote-grinds.ts';
import type { DeskRoom } from './room.ts';
import type { Brought, QuoteLine, QuoteResult, Range } from './shapes.ts';

export interface Quoted {
  species: string;
  brought: Brought;
  extras: readonly string[];
  /** Each of low, mean and high. */
  ends: Record<keyof Range, { hangingGrams: number; outcome: Outcome; packages: number }>;
}

const ENDS = ['low', 'mean', 'high'] as const;

/** Null where the shop has no prices, or none for such an animal. */
export function priceQuote(room: DeskRoom, quoted: Quoted): QuoteResult['price'] {
  const book = pricesInForce(room);
  if (!book) return null;
  const priced = new Set(
    book.lines.flatMap(({ basis, product }) => (basis === 'product' && product ? [product] : [])),
  );
  const chargeOf = (end: keyof Range) =>
    priceLines({ lines: book.lines, amounts: amountsOf(quoted, end, priced), taxRule: book.taxRule });
  const charges = { low: chargeOf('low'), mean: chargeOf('mean'), high: chargeOf('high') };
  if (!charges.high.lines.some(({ basis }) => basis !== 'minimum')) return null;
  const ranged = (amount: (charge: (typeof charges)['low']) => number): Range => ({
    low: amount(charges.low),
    mean: amount(charges.mean),
    high: amount(charges.high),
  });
  const codes = [...new Set(ENDS.flatMap((end) => charges[end].lines.map(({ code }) => code)))];
  const lines: QuoteLine[] = codes.map((code) => ({
    code,
    label: book.lines.find((line) => line.code === code)?.label ?? code,
    ...ranged(({ lines: charged }) => charged.find((line) => line.code === code)?.amountMinor ?? 0),
  }));
  if (charges.high.taxMinor > 0)
    lines.push({ code: 'tax', label: 'Tax', ...ranged(({ taxMinor }) => taxMinor) });
  return {
    currency: book.currency,
    lines,
    ...ranged(({ totalMinor }) => totalMinor),
    exampleBook: book.example,
  };
}

/** A product that has a price of its own is charged by it, all other grinds as ground. */
function amountsOf(
  { species, brought, extras, ends }: Quoted,
  end: keyof Range,
  priced: ReadonlySet<string>,
): Amounts {
  const { hangingGrams, outcome, packages } = ends[end];
  const products: Record<string, number> = {};
  const fats: Record<string, number> = {};
  let groundGrams = 0;
  for (const { product, fat, grams, boughtGrams } of outcome.grinds) {
    if (priced.has(product)) products[product] = (products[product] ?? 0) + grams;
    else groundGrams += grams;
    if (boughtGrams > 0) fats[fat] = (fats[fat] ?? 0) + boughtGrams;
  }
  return { species, brought, hangingGrams, groundGrams, products, fats, packages, extras: [...extras] };
}

/** What a quoted animal will cost, line by line, at each end of its ranges. */
import { priceLines, type Amounts } from '../../core/pricing/price.ts';
import { pricesInForce } from '../pricing/prices.ts';
import type { Outcome } from './grinds.ts';
import type { Session } from '../session/session.ts';
import type { Brought, QuoteLine, QuoteResult, Range } from '../contract/contract.ts';

export interface Quoted {
  species: string;
  brought: Brought;
  extras: readonly string[];
  /** Each of low, mean and high. */
  ends: Record<keyof Range, { hangingGrams: number; outcome: Outcome; packages: number }>;
}

const ENDS = ['low', 'mean', 'high'] as const;

/** Null where the shop has no prices, or none for such an animal. */
export function priceQuote(session: Session, quoted: Quoted): QuoteResult['price'] {
  const book = pricesInForce(session);
  if (!book) return null;
  const byProduct = new Set(
    book.lines.flatMap(({ basis, product }) => (basis === 'product' && product ? [product] : [])),
  );
  const chargeOf = (end: keyof Range) =>
    priceLines({ lines: book.lines, amounts: amountsOf(quoted, end, byProduct), taxRule: book.taxRule });
  const charges = { low: chargeOf('low'), mean: chargeOf('mean'), high: chargeOf('high') };
  if (!charges.high.lines.some(({ basis }) => basis !== 'minimum')) return null;
  const perEnd = (amount: (end: keyof Range) => number): Range => ({
    low: amount('low'),
    mean: amount('mean'),
    high: amount('high'),
  });
  const codes = [...new Set(ENDS.flatMap((end) => charges[end].lines.map(({ code }) => code)))];
  const lines: QuoteLine[] = codes.map((code) => {
    const priced = book.lines.find((line) => line.code === code);
    const at = (end: keyof Range) => charges[end].lines.find((line) => line.code === code);
    const charged = at('mean') ?? at('high') ?? at('low');
    return {
      code,
      label: priced?.label ?? code,
      basis: priced?.basis ?? '',
      quantity: perEnd((end) => at(end)?.quantity ?? 0),
      unit: priced?.unit ?? null,
      unitPriceMinor: charged?.unitPriceMinor ?? null,
      ...perEnd((end) => at(end)?.amountMinor ?? 0),
    };
  });
  if (ENDS.some((end) => charges[end].taxMinor !== 0))
    lines.push({
      code: 'tax',
      label: 'Tax',
      basis: 'tax',
      quantity: null,
      unit: null,
      unitPriceMinor: null,
      ...perEnd((end) => charges[end].taxMinor),
    });
  return {
    currency: book.currency,
    lines,
    ...perEnd((end) => charges[end].totalMinor),
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

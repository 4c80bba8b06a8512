/** The predicted price of a quoted animal, line by line, at each end of its range. */
import { priceLines, type Amounts } from '../../core/pricing/price.ts';
import { checkAdjustments, coreAdjustments, quotedCode } from '../pricing/adjustments.ts';
import { chargeableLines, unpricedOf } from '../pricing/gaps.ts';
import { listedProducts, productLookup, type ProductLookup } from '../pricing/product-lookup.ts';
import { pricesInForce } from '../pricing/prices.ts';
import type { Outcome } from './grinds.ts';
import type { Session } from '../session/session.ts';
import type { AdjustmentInput, Brought, QuoteLine, QuoteResult, Range } from '../contract/contract.ts';

export interface Quoted {
  species: string;
  brought: Brought;
  extras: Readonly<Record<string, number>>;
  adjustments: readonly AdjustmentInput[];
  /** For each of low, mean and high. */
  ends: Record<keyof Range, { hangingGrams: number; outcome: Outcome; packages: number }>;
}

const ENDS = ['low', 'mean', 'high'] as const;

/**
 * Null if the shop has no prices, or none for such an animal.
 * @throws ProblemError `adjustment.line`, `price.discount-over-all`
 */
export function priceQuote(session: Session, quoted: Quoted): QuoteResult['price'] {
  const book = pricesInForce(session);
  if (!book) return null;
  checkAdjustments(book.lines, quoted.adjustments);
  const coded = quoted.adjustments.map((one, place) => ({ ...one, code: quotedCode(place) }));
  const { adjustments, chargeAs } = coreAdjustments(book.lines, coded);
  const lookup = productLookup(session);
  const chargeOf = (end: keyof Range) => {
    const amounts = { ...amountsOf(quoted, end, lookup), chargeAs };
    return priceLines({ lines: book.lines, amounts, taxRule: book.taxRule, adjustments });
  };
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
      label: charged?.label ?? priced?.label ?? code,
      basis: charged?.basis ?? priced?.basis ?? '',
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
    unpriced: unpricedOf(session, book.lines, quoted, charges.high.uncovered),
    chargeable: chargeableLines(book.lines, quoted),
  };
}

/** Each grind is a product of its own; the prices determine which line charges it. */
function amountsOf(
  { species, brought, extras, ends }: Quoted,
  end: keyof Range,
  lookup: ProductLookup,
): Amounts {
  const { hangingGrams, outcome, packages } = ends[end];
  const products: Record<string, number> = {};
  const fats: Record<string, number> = {};
  for (const { product, fat, grams, boughtGrams } of outcome.grinds) {
    products[product] = (products[product] ?? 0) + grams;
    if (boughtGrams > 0) fats[fat] = (fats[fat] ?? 0) + boughtGrams;
  }
  const kinds = Object.fromEntries(Object.keys(products).map((product) => [product, 'unlisted' as const]));
  const listed = listedProducts({ products, kinds }, lookup);
  return { species, brought, hangingGrams, groundGrams: 0, ...listed, fats, packages, extras };
}

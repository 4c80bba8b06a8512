/** The predicted price of a quoted animal, line by line, at each end of its range. */
import { byName } from '../../core/values/by-name.ts';
import type { MadeOf } from '../../core/pricing/lines.ts';
import { priceLines, type Amounts } from '../../core/pricing/price.ts';
import { checkAdjustments, coreAdjustments, quotedCode } from '../pricing/adjustments.ts';
import { chargeableLines, unpricedOf } from '../pricing/gaps.ts';
import { listedProducts, productLookup, type ProductLookup } from '../pricing/product-lookup.ts';
import { pricesInForce } from '../pricing/prices.ts';
import type { Outcome } from './grinds.ts';
import type { Scenarios } from './scenarios.ts';
import type { Session } from '../session/session.ts';
import type { AdjustmentInput, Brought, QuoteLine, QuoteResult, Range } from '../contract/contract.ts';
import { TAX_LABEL } from '../names/line-labels.ts';

export interface Quoted {
  species: string;
  brought: Brought;
  extras: Readonly<Record<string, number>>;
  adjustments: readonly AdjustmentInput[];
  cases: Scenarios<Case>;
}

interface Case {
  hangingGrams: number;
  outcome: Outcome;
  packages: number;
}

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
  const charges = quoted.cases.map((one) => {
    const amounts = { ...amountsOf(quoted, one, lookup), chargeAs };
    return priceLines({ lines: book.lines, amounts, taxRule: book.taxRule, adjustments });
  });
  if (!charges.all.some(({ lines }) => lines.some(({ basis }) => basis !== 'minimum'))) return null;
  const minor = (amount: (charge: Charge) => number): Range => wholeMinor(charges.range(amount));
  const codes = [...new Set(charges.all.flatMap(({ lines }) => lines.map(({ code }) => code)))];
  const lines: QuoteLine[] = codes.map((code) => {
    const priced = book.lines.find((line) => line.code === code);
    const of = (charge: Charge) => charge.lines.find((line) => line.code === code);
    const charged = of(charges.mean) ?? charges.all.map(of).findLast((line) => line !== undefined);
    return {
      code,
      label: charged?.label ?? priced?.label ?? code,
      basis: charged?.basis ?? priced?.basis ?? '',
      quantity: charges.range((charge) => of(charge)?.quantity ?? 0),
      unit: priced?.unit ?? null,
      unitPriceMinor: charged?.unitPriceMinor ?? null,
      ...minor((charge) => of(charge)?.amountMinor ?? 0),
    };
  });
  if (charges.all.some(({ taxMinor }) => taxMinor !== 0))
    lines.push({
      code: 'tax',
      label: TAX_LABEL,
      basis: 'tax',
      quantity: null,
      unit: null,
      unitPriceMinor: null,
      ...minor(({ taxMinor }) => taxMinor),
    });
  return {
    currency: book.currency,
    lines,
    ...minor(({ totalMinor }) => totalMinor),
    exampleBook: book.example,
    unpriced: unpricedOf(session, book.lines, quoted, [
      ...new Set(charges.all.flatMap(({ uncovered }) => uncovered)),
    ]),
    chargeable: chargeableLines(book.lines, quoted),
  };
}

type Charge = ReturnType<typeof priceLines>;

/** Money between two cases is whole. */
function wholeMinor({ low, mean, high }: Range): Range {
  return { low: Math.round(low), mean, high: Math.round(high) };
}

/** Each grind is a product of its own; the prices determine which line charges it. */
function amountsOf(
  { species, brought, extras }: Quoted,
  { hangingGrams, outcome, packages }: Case,
  lookup: ProductLookup,
): Amounts {
  const products = byName<number>();
  const fats: Record<string, number> = {};
  const how = byName<MadeOf[]>();
  for (const made of outcome.grinds) {
    products[made.product] = (products[made.product] ?? 0) + made.grams;
    const recipe = made.recipeId === null ? null : String(made.recipeId);
    (how[made.product] ??= []).push({ recipe, grams: made.grams, trimGrams: made.trimGrams });
    for (const [source, grams] of Object.entries(made.fats)) fats[source] = (fats[source] ?? 0) + grams;
  }
  const kinds = Object.fromEntries(Object.keys(products).map((product) => [product, 'unlisted' as const]));
  const listed = listedProducts({ products, kinds, made: how }, lookup);
  return { species, brought, hangingGrams, groundGrams: 0, ...listed, fats, packages, extras };
}

import * as v from 'valibot';
import type { PriceLineRecord } from '../../book/records/prices.ts';
import { compareDates } from '../../core/values/dates.ts';
import { isByProduct } from '../../core/pricing/by-product.ts';
import type { PriceLine } from '../../core/pricing/price.ts';
import { ask, askFar, PRICES_AGO_DAYS, PRICES_AHEAD_DAYS } from '../input/day-doubts.ts';
import { by, date, needed, confirmedOf } from '../input/input.ts';
import { coreLine } from './core-line.ts';
import { priceGaps } from './gaps.ts';
import { checkPrices, priceLineList, taxRule } from './price-input.ts';
import { listedLine, namedBy, productLookup, type ProductLookup } from './product-lookup.ts';
import { productsOnShelf } from './products-shelf.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import type { PriceBookView, PriceLineRow, PricedLine } from '../contract/contract.ts';
import type { ProductKind } from '../../trade/product.ts';

/** The price book in force today; empty if there is none. */
export const get = read(v.object({}), (session): PriceBookView => {
  const book = session.book.prices.inForce(session.today());
  if (!book)
    return {
      id: 0,
      name: '',
      validFrom: session.today(),
      currency: session.settings.currency,
      taxRule: 'per line',
      example: false,
      lines: [],
      gaps: { unpriced: [], unknown: [] },
    };
  const lines = rowsOf(session, book.id);
  return {
    id: book.id,
    name: book.name,
    validFrom: book.valid_from,
    currency: book.currency,
    taxRule: book.tax_rule,
    example: book.example === 1,
    lines,
    gaps: priceGaps(session, lines),
  };
});

/**
 * Saves new prices as a new price book, valid from a date; earlier ones stay for their bills. `taxRule` states where
 * tax is rounded: on each line, or once on the whole bill.
 * @throws ProblemError as `checkPrices`; `date.long-ago`, `date.far-ahead`, `prices.never-apply` (conflict: pass
 * `confirmed`)
 */
export const save = write(
  v.object({
    name: needed(80),
    validFrom: date,
    taxRule,
    lines: priceLineList,
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    const lookup = productLookup(session);
    checkPrices(input.lines.map((line) => listedLine(line, lookup)));
    const span = { ago: PRICES_AGO_DAYS, ahead: PRICES_AHEAD_DAYS };
    askFar(input.confirmed, 'validFrom', input.validFrom, session.today(), span);
    const now = session.book.prices.inForce(session.today());
    if (now && compareDates(input.validFrom, now.valid_from) < 0)
      ask(input.confirmed, 'prices.never-apply', 'validFrom', now.valid_from);
    savePrices(session, { ...input, example: false });
    return get.run(session, {});
  },
);

export function savePrices(
  session: Session,
  book: {
    name: string;
    validFrom: string;
    taxRule: PriceBookView['taxRule'];
    example: boolean;
    lines: readonly PriceLineRow[];
    by: string;
  },
): void {
  const lookup = productLookup(session);
  session.book.prices.add(
    {
      name: book.name,
      validFrom: book.validFrom,
      currency: session.settings.currency,
      taxRule: book.taxRule,
      example: book.example,
      at: session.now(),
      by: book.by,
    },
    book.lines.map((line) => lineRecord(listedLine(line, lookup))),
  );
}

/** The prices in force as lines of the core; null if the shop has none. */
export function pricesInForce(session: Session): {
  id: number;
  currency: string;
  example: boolean;
  taxRule: 'per line' | 'per bill';
  lines: PriceLine[];
} | null {
  const book = session.book.prices.inForce(session.today());
  if (!book) return null;
  const lines = rowsOf(session, book.id).map(coreLine);
  return { id: book.id, currency: book.currency, example: book.example === 1, taxRule: book.tax_rule, lines };
}

/** The extras, or the hourly lines, of the prices in force. */
export function pricedLines(session: Session, basis: 'extra' | 'hour'): PricedLine[] {
  return (pricesInForce(session)?.lines ?? [])
    .filter((line) => line.basis === basis)
    .map(({ code, label, amountMinor = 0 }) => ({ code, label, unitPriceMinor: amountMinor }));
}

function rowsOf(session: Session, bookId: number): PriceLineRow[] {
  const lookup = productLookup(session);
  const codes = new Set(productsOnShelf(session).map(({ code }) => code));
  // A product may have been added to the list since it was priced. A code stays, even if another product now has that
  // name.
  const coded = (one: string): string => (codes.has(one) ? one : (lookup(one)?.code ?? one));
  return session.book.prices
    .lines(bookId)
    .map((record) => lineRow(record, lookup))
    .map((row) => ({ ...row, products: [...new Set(row.products.map(coded))] }));
}

function lineRow(record: PriceLineRecord, lookup: ProductLookup): PriceLineRow {
  // Older lines name one product in words; only a price by product uses it.
  const typed =
    record.product === null || !isByProduct(record.basis)
      ? { products: [], kinds: [] }
      : namedBy(record.product, lookup);
  return {
    code: record.code,
    label: record.label,
    basis: record.basis,
    amountMinor: record.amount_minor,
    rate: record.rate,
    unit: record.unit,
    species: record.species === null ? null : JSON.parse(record.species),
    brought: record.brought === null ? null : JSON.parse(record.brought),
    products: record.products === null ? typed.products : (JSON.parse(record.products) as string[]),
    kinds: record.kinds === null ? typed.kinds : (JSON.parse(record.kinds) as ProductKind[]),
    recipes: record.recipes === null ? [] : (JSON.parse(record.recipes) as number[]),
    least: record.least,
    fatSource: record.fat_source,
    taxRate: record.tax_rate,
  };
}

function lineRecord(row: PriceLineRow): PriceLineRecord {
  const isFor = isByProduct(row.basis);
  return {
    code: row.code,
    label: row.label,
    basis: row.basis,
    amount_minor: row.amountMinor,
    rate: row.rate,
    unit: row.unit,
    species: row.species === null ? null : JSON.stringify(row.species),
    brought: row.brought === null ? null : JSON.stringify(row.brought),
    product: null,
    products: isFor ? JSON.stringify(row.products) : null,
    kinds: isFor ? JSON.stringify(row.kinds) : null,
    recipes: isFor ? JSON.stringify(row.recipes) : null,
    least: row.least,
    fat_source: row.fatSource,
    tax_rate: row.taxRate,
  };
}

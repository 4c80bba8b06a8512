import * as v from 'valibot';
import type { PriceLineRecord } from '../../book/records/prices.ts';
import { compareDates } from '../../core/values/dates.ts';
import type { PriceLine } from '../../core/pricing/price.ts';
import { ask, askFar, PRICES_AGO_DAYS, PRICES_AHEAD_DAYS } from '../input/day-doubts.ts';
import { by, date, needed, confirmedOf } from '../input/input.ts';
import { checkPrices, priceLineList, taxRule } from './price-input.ts';
import { read, write } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import type { PriceBookView, PriceLineRow } from '../contract/contract.ts';

/** The book in force today; an empty one where there is none. */
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
    };
  return {
    id: book.id,
    name: book.name,
    validFrom: book.valid_from,
    currency: book.currency,
    taxRule: book.tax_rule,
    example: book.example === 1,
    lines: session.book.prices.lines(book.id).map(lineRow),
  };
});

/**
 * New prices are a new book, valid from a date; the old ones stay with the bills that they made. `taxRule` says where
 * tax is rounded: on each line, or once on the whole bill. @throws ProblemError as `checkPrices`; `date.long-ago`,
 * `date.far-ahead`, `prices.never-apply` (conflict: pass `confirmed`)
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
    checkPrices(input.lines);
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
    book.lines.map(lineRecord),
  );
}

/** The prices in force as the core's lines; null where the shop has none. */
export function pricesInForce(session: Session): {
  id: number;
  currency: string;
  example: boolean;
  taxRule: 'per line' | 'per bill';
  lines: PriceLine[];
} | null {
  const book = session.book.prices.inForce(session.today());
  if (!book) return null;
  const lines = session.book.prices.lines(book.id).map(lineRow).map(coreLine);
  return { id: book.id, currency: book.currency, example: book.example === 1, taxRule: book.tax_rule, lines };
}

/** Columns that a line does not use are null in the book and absent in the core. */
export function coreLine(row: PriceLineRow): PriceLine {
  const {
    code,
    label,
    basis,
    amountMinor,
    rate,
    unit,
    species,
    brought: broughtAs,
    product,
    fatSource,
    taxRate,
  } = row;
  return {
    code,
    label,
    basis: basis as PriceLine['basis'],
    taxRate,
    ...(amountMinor === null ? {} : { amountMinor }),
    ...(rate === null ? {} : { rate }),
    ...(unit === null ? {} : { unit }),
    ...(species === null ? {} : { species }),
    ...(broughtAs === null ? {} : { brought: broughtAs }),
    ...(product === null ? {} : { product }),
    ...(fatSource === null ? {} : { fatSource }),
    ...(basis === 'extra' ? { extra: code } : {}),
  };
}

function lineRow(record: PriceLineRecord): PriceLineRow {
  return {
    code: record.code,
    label: record.label,
    basis: record.basis,
    amountMinor: record.amount_minor,
    rate: record.rate,
    unit: record.unit,
    species: record.species === null ? null : JSON.parse(record.species),
    brought: record.brought === null ? null : JSON.parse(record.brought),
    product: record.product,
    fatSource: record.fat_source,
    taxRate: record.tax_rate,
  };
}

function lineRecord(row: PriceLineRow): PriceLineRecord {
  return {
    code: row.code,
    label: row.label,
    basis: row.basis,
    amount_minor: row.amountMinor,
    rate: row.rate,
    unit: row.unit,
    species: row.species === null ? null : JSON.stringify(row.species),
    brought: row.brought === null ? null : JSON.stringify(row.brought),
    product: row.product,
    fat_source: row.fatSource,
    tax_rate: row.taxRate,
  };
}

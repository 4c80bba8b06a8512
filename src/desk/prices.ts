import * as v from 'valibot';
import type { PriceLineRecord } from '../book/prices.ts';
import type { PriceLine } from '../core/price.ts';
import { brought, by, date, needed } from './input.ts';
import { read, write } from './procedure.ts';
import { Trouble } from './problem.ts';
import type { DeskRoom } from './room.ts';
import type { PriceBookLook, PriceLineRow } from './shapes.ts';

const BASES = [
  'animal',
  'hanging',
  'ground',
  'product',
  'fat',
  'package',
  'hour',
  'extra',
  'percent',
  'minimum',
  'deposit',
] as const;
const perWeight = ['hanging', 'ground', 'product', 'fat'];

/** One line as a window sends it. */
export const priceLine = v.pipe(
  v.object({
    code: needed(40),
    label: needed(120),
    basis: v.picklist(BASES, 'choice.basis'),
    amountMinor: v.nullable(
      v.pipe(
        v.number('money.unreadable'),
        v.integer('money.unreadable'),
        v.minValue(0, 'money.negative'),
        v.maxValue(100_000_000, 'money.too-much'),
      ),
    ),
    rate: v.nullable(
      v.pipe(v.number('share.range'), v.minValue(-1, 'share.range'), v.maxValue(1, 'share.range')),
    ),
    unit: v.nullable(v.picklist(['lb', 'kg'], 'choice.unit')),
    species: v.nullable(v.array(needed(40))),
    brought: v.nullable(v.array(brought)),
    product: v.nullable(needed(60)),
    fatSource: v.nullable(needed(40)),
    taxRate: v.pipe(v.number('share.range'), v.minValue(0, 'share.range'), v.maxValue(0.5, 'share.range')),
  }),
  v.check((one) => (one.basis === 'percent') === (one.amountMinor === null), 'price.amount'),
  v.check((one) => !perWeight.includes(one.basis) || one.unit !== null, 'price.unit'),
);

/** The book in force today; an empty one where there is none. */
export const look = read(v.object({}), (room): PriceBookLook => {
  const book = room.book.prices.inForce(room.today());
  if (!book)
    return {
      id: 0,
      name: '',
      validFrom: room.today(),
      currency: room.settings.currency,
      example: false,
      lines: [],
    };
  return {
    id: book.id,
    name: book.name,
    validFrom: book.valid_from,
    currency: book.currency,
    example: book.example === 1,
    lines: room.book.prices.lines(book.id).map(lineRow),
  };
});

/** New prices are a new book, valid from a date; the old ones stay with the bills that they made. */
export const save = write(
  v.object({
    name: needed(80),
    validFrom: date,
    lines: v.pipe(v.array(priceLine), v.maxLength(200, 'text.too-long')),
    by,
  }),
  (room, input) => {
    const codes = input.lines.map(({ code }) => code);
    const twice = codes.find((code, i) => codes.indexOf(code) !== i);
    if (twice !== undefined)
      throw new Trouble('invalid', 'price.twice', { field: 'lines', with: { code: twice } });
    savePrices(room, { ...input, example: false });
    return look.run(room, {});
  },
);

export function savePrices(
  room: DeskRoom,
  book: { name: string; validFrom: string; example: boolean; lines: readonly PriceLineRow[]; by: string },
): void {
  room.book.prices.add(
    {
      name: book.name,
      validFrom: book.validFrom,
      currency: room.settings.currency,
      taxRule: 'per line',
      example: book.example,
      at: room.now(),
      by: book.by,
    },
    book.lines.map(lineRecord),
  );
}

/** The prices in force as the core's lines; null where the shop has none. */
export function pricesInForce(room: DeskRoom): {
  id: number;
  currency: string;
  example: boolean;
  taxRule: 'per line' | 'per bill';
  lines: PriceLine[];
} | null {
  const book = room.book.prices.inForce(room.today());
  if (!book) return null;
  const lines = room.book.prices.lines(book.id).map(lineRow).map(coreLine);
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

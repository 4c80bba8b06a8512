import type { ChangeLog } from '../changes/change-log.ts';
import { cachedRows } from './cached-rows.ts';
import type { Db } from '../file/db.ts';

/** A valid bill with its animal and the quote that it came from. */
interface SeasonBill {
  animal_id: number;
  number: number;
  ticket: string;
  species: string;
  currency: string;
  /** As frozen on the bill. */
  amounts: unknown;
  subtotal_minor: number;
  total_minor: number;
  price_book_id: number;
  /** The animal's take-home, once known; NULL before. */
  take_home: number | null;
  /** NULL without a quote. */
  quote: string | null;
  /** NULL without a price. */
  quoted_currency: string | null;
  price_low: number;
  price_mean: number;
  price_high: number;
  grams_low: number;
  grams_mean: number;
  grams_high: number;
}

export interface SeasonBillLine {
  code: string;
  label: string;
  basis: string;
  bills: number;
  amount_minor: number;
}

/** Packed grams of one product at the Table of one animal. */
interface PackedProduct {
  animal_id: number;
  product: string;
  grams: number;
}

/** One finished grind: own meat in, bought fat in, packages out, in grams. */
export interface SeasonGrind {
  batch_id: number;
  product: string;
  own: number;
  fat: number;
  /** Ingredients that recipes added. */
  added: number;
  out: number;
}

/** Grams of bought fat of one lot that went into one product. */
export interface SeasonFat {
  lot_id: number;
  product: string;
  grams: number;
  cost_minor: number | null;
  cost_unit: 'lb' | 'kg' | null;
}

/** Sums of a season's bills, grinds and fat; a season is that of the animal, or of the batch. */
export function seasonMoney(db: Db, changes: ChangeLog) {
  const standing = `FROM bill b JOIN animal a ON a.id = b.animal_id
    WHERE a.season = ? AND b.currency = ? AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)`;
  const quoted = (figure: string, end: string): string => `q.answered ->> '$.${figure}.${end}'`;
  const bills = cachedRows<SeasonBill & { amounts: string }, SeasonBill>(
    db,
    changes,
    (
      condition,
    ) => `SELECT s.animal_id, b.number, a.ticket, s.species, b.currency, b.amounts, b.subtotal_minor, b.total_minor, b.price_book_id,
       iif(s.finished = 1, s.take_home, NULL) AS take_home, q.name AS quote, ${quoted('price', 'currency')} AS quoted_currency,
       ${quoted('price', 'low')} AS price_low, ${quoted('price', 'mean')} AS price_mean, ${quoted('price', 'high')} AS price_high,
       ${quoted('takeHomeGrams', 'low')} AS grams_low, ${quoted('takeHomeGrams', 'mean')} AS grams_mean, ${quoted('takeHomeGrams', 'high')} AS grams_high
     FROM animal_sum s JOIN animal a ON a.id = s.animal_id JOIN bill b ON b.animal_id = s.animal_id LEFT JOIN quote q ON q.id = b.quote_id
     WHERE ${condition} AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)`,
    (row) => ({ ...row, amounts: JSON.parse(row.amounts) as unknown }),
  );
  const lines = db.prepare<[number, string], SeasonBillLine>(
    // The label is that of the newest bill's price book. Lines from adjustments go by label, because their code is
    // only an index.
    `WITH summed AS (
       SELECT iif(l.code LIKE 'adjustment-%', 'adjustment-' || l.label, l.code) AS code, l.label, l.basis, b.price_book_id,
         max(b.number), count(*) AS bills, sum(l.amount_minor) AS amount_minor
       FROM bill_line l JOIN bill b ON b.id = l.bill_id WHERE l.bill_id IN (SELECT b.id ${standing}) GROUP BY 1, l.basis
     )
     SELECT code, coalesce((SELECT p.label FROM price_line p WHERE p.price_book_id = s.price_book_id AND p.code = s.code LIMIT 1), label) AS label,
       basis, bills, amount_minor FROM summed s ORDER BY amount_minor DESC, code`,
  );
  const newest = db
    .prepare<[string], number | null>(
      `SELECT max(a.season) FROM bill b JOIN animal a ON a.id = b.animal_id
       WHERE b.currency = ? AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)`,
    )
    .pluck();
  const chargedBy = db.prepare<[number, string, number], { basis: string; amount_minor: number }>(
    `SELECT l.basis, sum(l.amount_minor) AS amount_minor FROM bill_line l
     WHERE l.bill_id IN (SELECT b.id ${standing} AND b.price_book_id = ?) GROUP BY l.basis`,
  );
  const grinds = db.prepare<[number], SeasonGrind>(
    `SELECT b.batch_id, b.product, b.own, b.bought AS fat, b.out,
       (SELECT coalesce(sum(w.grams), 0.0) FROM made_batch_now m JOIN made_weighed_now w ON w.made_id = m.id WHERE m.batch_id = b.batch_id) AS added
     FROM batch_sum b WHERE b.season = ? AND b.state = 'done' ORDER BY b.batch_id`,
  );
  const fat = db.prepare<[number], SeasonFat>(
    `SELECT s.fat_lot_id AS lot_id, b.product, sum(s.grams) AS grams, l.cost_minor, l.cost_unit
     FROM batch_sum b JOIN batch_source_sum s ON s.batch_id = b.batch_id JOIN fat_lot l ON l.id = s.fat_lot_id
     WHERE b.season = ? AND s.animal_id = 0 GROUP BY s.fat_lot_id, b.product
     ORDER BY s.fat_lot_id, b.product`,
  );
  const packed = cachedRows<PackedProduct, PackedProduct>(
    db,
    changes,
    (condition) => `SELECT s.animal_id, w.product, sum(w.grams) AS grams
     FROM animal_sum s JOIN weighing_now w ON w.animal_id = s.animal_id AND w.stage = 'packed'
     WHERE ${condition} GROUP BY s.animal_id, w.product`,
    (row) => row,
  );
  return {
    /** Valid bills, unordered. */
    bills,
    /** Their lines summed by code and basis, largest first. */
    lines: (season: number, currency: string) => lines.all(season, currency),
    /** The newest season with a valid bill. */
    newestBilled: (currency: string) => newest.get(currency) ?? null,
    /** Revenue of the bills made with one price book, by line. */
    takenBy: (season: number, currency: string, priceBookId: number) =>
      chargedBy.all(season, currency, priceBookId),
    grinds: (season: number) => grinds.all(season),
    /** Of finished and unfinished batches. */
    fat: (season: number) => fat.all(season),
    /** Packed at the Table, unordered. */
    packed,
  };
}

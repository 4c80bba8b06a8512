import type { Db } from './open.ts';

/** A bill that stands, with its animal and the quote that it came of. */
export interface SeasonBill {
  number: number;
  ticket: string;
  species: string;
  amounts: string;
  subtotal_minor: number;
  total_minor: number;
  price_book_id: number;
  /** What the animal gave, once that is known; NULL before. */
  take_home: number | null;
  quote: string | null;
  quoted: string | null;
}

export interface SeasonBillLine {
  code: string;
  label: string;
  basis: string;
  bills: number;
  amount_minor: number;
}

/** A finished animal that was measured by its weight and gave less than that: grams, `cuts` of it packed at the Table. */
export interface SeasonCut {
  base: number;
  take_home: number;
  cuts: number;
}

/** One finished grind: own meat in, bought fat in, packages out, in grams. */
export interface SeasonGrind {
  product: string;
  own: number;
  fat: number;
  out: number;
}

/** Bought fat of one lot that went into one product, in grams. */
export interface SeasonFat {
  lot_id: number;
  product: string;
  grams: number;
  cost_minor: number | null;
  cost_unit: 'lb' | 'kg' | null;
}

/** What a season's bills, grinds and fat come to; a season is that of the animal, or of the batch. */
export function seasonMoney(db: Db) {
  const standing = `FROM bill b JOIN animal a ON a.id = b.animal_id
    WHERE a.season = ? AND b.currency = ? AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)`;
  const bills = db.prepare<[number, string], SeasonBill>(
    `SELECT b.number, a.ticket, a.species, b.amounts, b.subtotal_minor, b.total_minor, b.price_book_id,
       (SELECT s.take_home FROM animal_sum s WHERE s.animal_id = b.animal_id AND s.finished = 1) AS take_home,
       (SELECT q.name FROM quote q WHERE q.id = b.quote_id) AS quote,
       (SELECT q.answered FROM quote q WHERE q.id = b.quote_id) AS quoted ${standing} ORDER BY b.number`,
  );
  const lines = db.prepare<[number, string], SeasonBillLine>(
    `SELECT l.code, max(l.label) AS label, l.basis, count(*) AS bills, sum(l.amount_minor) AS amount_minor
     FROM bill_line l WHERE l.bill_id IN (SELECT b.id ${standing}) GROUP BY l.code, l.basis ORDER BY 5 DESC, 1`,
  );
  const newest = db
    .prepare<[string], number | null>(
      `SELECT max(a.season) FROM bill b JOIN animal a ON a.id = b.animal_id
       WHERE b.currency = ? AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)`,
    )
    .pluck();
  const takenBy = db.prepare<[number, string, number], { basis: string; amount_minor: number }>(
    `SELECT l.basis, sum(l.amount_minor) AS amount_minor FROM bill_line l
     WHERE l.bill_id IN (SELECT b.id ${standing} AND b.price_book_id = ?) GROUP BY l.basis`,
  );
  const grinds = db.prepare<[number], SeasonGrind>(
    `SELECT product, own, bought AS fat, out FROM batch_sum WHERE season = ? AND state = 'done' ORDER BY batch_id`,
  );
  const fat = db.prepare<[number], SeasonFat>(
    `SELECT s.fat_lot_id AS lot_id, b.product, sum(s.grams) AS grams, l.cost_minor, l.cost_unit
     FROM batch_sum b JOIN batch_source_sum s ON s.batch_id = b.batch_id JOIN fat_lot l ON l.id = s.fat_lot_id
     WHERE b.season = ? AND b.state = 'done' AND s.animal_id = 0 GROUP BY s.fat_lot_id, b.product
     ORDER BY s.fat_lot_id, b.product`,
  );
  const cut = db.prepare<[string, number], SeasonCut>(
    `SELECT s.base, s.take_home, coalesce((SELECT sum(w.grams) FROM weighing_now w WHERE w.animal_id = s.animal_id
       AND w.stage = 'packed' AND w.product NOT IN (SELECT value FROM json_each(?))), 0.0) AS cuts
     FROM animal_sum s WHERE s.season = ? AND s.finished = 1 AND s.take_home > 0 AND s.take_home < s.base`,
  );
  return {
    /** Bills that stand, by number. */
    bills: (season: number, currency: string) => bills.all(season, currency),
    /** Their lines added up by code, greatest first. */
    lines: (season: number, currency: string) => lines.all(season, currency),
    /** The newest season that a bill stands for. */
    newestBilled: (currency: string) => newest.get(currency) ?? null,
    /** What the bills made with one price book took, by what it was charged on. */
    takenBy: (season: number, currency: string, priceBookId: number) =>
      takenBy.all(season, currency, priceBookId),
    grinds: (season: number) => grinds.all(season),
    fat: (season: number) => fat.all(season),
    /** Finished animals; packages of what is named in `ground` are no cuts. */
    cut: (season: number, ground: Iterable<string>) => cut.all(JSON.stringify([...ground]), season),
  };
}

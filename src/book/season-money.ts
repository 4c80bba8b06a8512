import type { Db } from './open.ts';

/** A bill that stands, with its animal and the quote that it came of. */
export interface SeasonBill {
  number: number;
  animal_id: number;
  ticket: string;
  species: string;
  amounts: string;
  subtotal_minor: number;
  total_minor: number;
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
    `SELECT b.number, b.animal_id, a.ticket, a.species, b.amounts, b.subtotal_minor, b.total_minor,
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
  const grinds = db.prepare<[number], SeasonGrind>(
    `SELECT b.product, sum(iif(w.stage = 'grinder' AND w.part <> 'fat added', w.grams, 0.0)) AS own,
       sum(iif(w.part = 'fat added', w.grams, 0.0)) AS fat, sum(iif(w.stage = 'packed', w.grams, 0.0)) AS out
     FROM batch b JOIN weighing_now w ON w.batch_id = b.id
     WHERE b.season = ? AND b.state = 'done' GROUP BY b.id ORDER BY b.id`,
  );
  const fat = db.prepare<[number], SeasonFat>(
    `SELECT w.fat_lot_id AS lot_id, b.product, sum(w.grams) AS grams, l.cost_minor, l.cost_unit
     FROM batch b JOIN weighing_now w ON w.batch_id = b.id JOIN fat_lot l ON l.id = w.fat_lot_id
     WHERE b.season = ? AND b.state = 'done' AND w.part = 'fat added' GROUP BY w.fat_lot_id, b.product
     ORDER BY w.fat_lot_id, b.product`,
  );
  const packed = db.prepare<[number], { animal_id: number; product: string; grams: number }>(
    `SELECT w.animal_id, w.product, sum(w.grams) AS grams FROM weighing_now w JOIN animal a ON a.id = w.animal_id
     WHERE a.season = ? AND w.stage = 'packed' GROUP BY w.animal_id, w.product`,
  );
  return {
    /** Bills that stand, by number. */
    bills: (season: number, currency: string) => bills.all(season, currency),
    /** Their lines added up by code, greatest first. */
    lines: (season: number, currency: string) => lines.all(season, currency),
    /** The newest season that a bill stands for. */
    newestBilled: (currency: string) => newest.get(currency) ?? null,
    grinds: (season: number) => grinds.all(season),
    fat: (season: number) => fat.all(season),
    /** What was packed at the Table, by animal and product. */
    packed: (season: number) => packed.all(season),
  };
}

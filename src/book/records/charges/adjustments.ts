import type { Db } from '../../file/db.ts';

export interface AdjustmentRecord {
  id: number;
  animal_id: number;
  quote_id: number | null;
  kind: 'free line' | 'amount off' | 'percent off' | 'other price' | 'charge as';
  label: string;
  line_code: string | null;
  product: string | null;
  amount_minor: number | null;
  rate: number | null;
  tax_rate: number | null;
  currency: string;
  reason: string;
  at: string;
  by: string;
  void_reason: string | null;
  void_at: string | null;
  void_by: string | null;
}

export type NewAdjustment = Omit<AdjustmentRecord, 'id' | 'void_reason' | 'void_at' | 'void_by'>;

/** Append-only adjustments of one animal's bill, each with a reason; voided by another row. */
export function adjustmentRecords(db: Db) {
  const insert = db.prepare(
    `INSERT INTO adjustment (animal_id, quote_id, kind, label, line_code, product, amount_minor, rate, tax_rate, currency, reason, at, by)
     VALUES (@animal_id, @quote_id, @kind, @label, @line_code, @product, @amount_minor, @rate, @tax_rate, @currency, @reason, @at, @by)`,
  );
  const columns = 'a.*, v.reason AS void_reason, v.at AS void_at, v.by AS void_by';
  const from = 'FROM adjustment a LEFT JOIN adjustment_void v ON v.adjustment_id = a.id';
  const get = db.prepare<[number], AdjustmentRecord>(`SELECT ${columns} ${from} WHERE a.id = ?`);
  const ofAnimal = db.prepare<[number], AdjustmentRecord>(
    `SELECT ${columns} ${from} WHERE a.animal_id = ? ORDER BY a.id`,
  );
  const animalsIn = db
    .prepare<[number], number>(
      'SELECT DISTINCT a.animal_id FROM adjustment a JOIN animal o ON o.id = a.animal_id WHERE o.season = ?',
    )
    .pluck();
  const voidOne = db.prepare(
    'INSERT INTO adjustment_void (adjustment_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  return {
    add: (adjustment: NewAdjustment): number => Number(insert.run(adjustment).lastInsertRowid),
    get: (id: number) => get.get(id),
    /** Oldest first, including voided ones. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    /** Ids of the season's animals with any, valid or voided. */
    animalsIn: (season: number): ReadonlySet<number> => new Set(animalsIn.all(season)),
    void: (id: number, reason: string, at: string, by: string): void => void voidOne.run(id, reason, at, by),
  };
}

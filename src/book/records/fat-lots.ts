import type { Db } from '../file/db.ts';

export interface FatLotRecord {
  id: number;
  code: string;
  source: string;
  name: string;
  animal_id: number | null;
  ticket: string | null;
  fat: number;
  fat_sd: number;
  cost_minor: number | null;
  cost_unit: 'lb' | 'kg' | null;
  supplier_lot: string;
  use_by: string | null;
  received_on: string;
  left_grams: number;
  start_grams: number;
}

interface NewFatLot {
  source: string;
  name: string;
  animalId: number | null;
  fat: number;
  fatSd: number;
  costMinor: number | null;
  costUnit: 'lb' | 'kg' | null;
  supplier: string;
  supplierLot: string;
  useBy: string | null;
  receivedOn: string;
  at: string;
  by: string;
}

interface NewFatMovement {
  lotId: number;
  kind: 'bought' | 'saved' | 'into batch' | 'voided' | 'thrown out' | 'counted' | 'handed over';
  grams: number;
  typed: string | null;
  weighingId: number | null;
  note?: string;
  at: string;
  by: string;
}

export interface FatMovementRow {
  id: number;
  kind: NewFatMovement['kind'];
  grams: number;
  typed: string | null;
  note: string;
  at: string;
  by: string;
  batch: string | null;
}

/** Fat on hand: lots, bought or an animal's own, and their movements. */
export function fatLotRecords(db: Db) {
  const columns = 'f.*, a.ticket';
  const from = 'FROM fat_on_hand f LEFT JOIN animal a ON a.id = f.animal_id';
  const all = db.prepare<[], FatLotRecord>(`SELECT ${columns} ${from} ORDER BY f.received_on, f.id`);
  const withLeft = db.prepare<[number], FatLotRecord>(
    `SELECT ${columns} ${from} WHERE f.left_grams > ? AND f.left_grams > 0 ORDER BY f.received_on, f.id`,
  );
  const withLeftOrIn = db.prepare<[{ batchId: number | null }], FatLotRecord>(
    `SELECT ${columns} ${from} WHERE f.id IN (
       SELECT lot_id FROM fat_lot_sum WHERE left_grams > 0
       UNION SELECT fat_lot_id FROM weighing WHERE batch_id = @batchId
       UNION SELECT p.value ->> '$.fatLotId' FROM batch b, json_each(b.plan, '$.parts') p WHERE b.id = @batchId)
     ORDER BY f.received_on, f.id`,
  );
  const get = db.prepare<[number], FatLotRecord>(`SELECT ${columns} ${from} WHERE f.id = ?`);
  const ofAnimal = db.prepare<[number], FatLotRecord>(`SELECT ${columns} ${from} WHERE f.animal_id = ?`);
  const nextNumber = db.prepare<[], number>('SELECT coalesce(max(id), 0) + 1 FROM fat_lot').pluck();
  const insert = db.prepare(
    `INSERT INTO fat_lot (code, source, name, animal_id, fat, fat_sd, cost_minor, cost_unit, supplier, supplier_lot, use_by, received_on, at, by)
     VALUES (@code, @source, @name, @animalId, @fat, @fatSd, @costMinor, @costUnit, @supplier, @supplierLot, @useBy, @receivedOn, @at, @by)`,
  );
  const move = db.prepare(
    `INSERT INTO fat_movement (lot_id, kind, grams, typed, weighing_id, note, at, by)
     VALUES (@lotId, @kind, @grams, @typed, @weighingId, @note, @at, @by)`,
  );
  const movements = db.prepare<[number], FatMovementRow>(
    `SELECT m.id, m.kind, m.grams, m.typed, m.note, m.at, m.by, b.name AS batch FROM fat_movement m
     LEFT JOIN weighing w ON w.id = m.weighing_id LEFT JOIN batch b ON b.id = w.batch_id
     WHERE m.lot_id = ? ORDER BY m.id`,
  );
  const ofWeighing = db.prepare<[number], { lot_id: number; grams: number }>(
    'SELECT lot_id, sum(grams) AS grams FROM fat_movement WHERE weighing_id = ? GROUP BY lot_id',
  );
  return {
    all: () => all.all(),
    /** Lots with more grams left than this, oldest first. */
    withLeft: (moreThan: number) => withLeft.all(moreThan),
    /** Lots that are not empty, and those planned for or weighed into a batch. */
    withLeftOrIn: (batchId: number | null) => withLeftOrIn.all({ batchId }),
    get: (id: number) => get.get(id),
    ofAnimal: (animalId: number) => ofAnimal.get(animalId),
    add(lot: NewFatLot): number {
      const code = `F${String(nextNumber.get() ?? 1).padStart(3, '0')}`;
      return Number(insert.run({ ...lot, code }).lastInsertRowid);
    },
    /** @returns the movement's id */
    move: (movement: NewFatMovement): number => Number(move.run({ note: '', ...movement }).lastInsertRowid),
    /** All movements of a lot, oldest first. */
    movements: (lotId: number) => movements.all(lotId),
    /** The fat movements of a weighing, for voiding it. */
    ofWeighing: (weighingId: number) => ofWeighing.all(weighingId),
  };
}

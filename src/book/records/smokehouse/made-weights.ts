import type { Db } from '../../file/db.ts';
import type { MassUnit, WeighSource } from '../../../trade/weighing.ts';

interface Typed {
  typed: string;
  digits: number;
  decimals: number;
  unit: MassUnit;
  grams: number;
  source: Exclude<WeighSource, 'import'>;
}

interface Signed {
  at: string;
  by: string;
}

export interface WeighedRow extends Typed, Signed {
  id: number;
  made_id: number;
  ingredient_id: number;
  lot: string;
  void_reason: string | null;
  void_by: string | null;
}

export interface StageRow extends Typed, Signed {
  id: number;
  made_id: number;
  stage: 'stuffed' | 'cooked';
  pieces: number | null;
  void_reason: string | null;
  void_by: string | null;
}

/** A package of a made batch: a weighing of its grind. */
export interface MadePackageRow {
  id: number;
  made_id: number;
  product: string;
  count: number;
  typed: string;
  decimals: number;
  unit: MassUnit;
  grams: number;
  place: string | null;
  at: string;
  by: string;
}

/** A made batch of a grind with one of its packages, if it has any. */
export interface MadePacked {
  id: number;
  recipe_id: number;
  /** The meat block, grams; null before the start. */
  block: number | null;
  weighing_id: number | null;
}

/** What one made batch comes to, grams; null where nothing was weighed. */
export interface MadeSums {
  id: number;
  name: string;
  batch_id: number;
  recipe_id: number;
  season: number;
  /** The meat block; null before the start. */
  block: number | null;
  /** What was weighed of ingredients. */
  added: number;
  stuffed: number | null;
  cooked: number | null;
  packed: number | null;
  packages: number;
  started_at: string | null;
  /** Of its grind: nothing more is packed of a finished one. */
  grind: 'open' | 'done';
}

const SUMS = `SELECT m.id, m.name, m.batch_id, m.recipe_id, m.season, b.state AS grind,
    (SELECT s.grams FROM made_start s WHERE s.made_id = m.id ORDER BY s.id DESC LIMIT 1) AS block,
    (SELECT max(s.at) FROM made_start s WHERE s.made_id = m.id) AS started_at,
    (SELECT coalesce(sum(w.grams), 0.0) FROM made_weighed_now w WHERE w.made_id = m.id) AS added,
    (SELECT sum(s.grams) FROM made_stage_now s WHERE s.made_id = m.id AND s.stage = 'stuffed') AS stuffed,
    (SELECT sum(s.grams) FROM made_stage_now s WHERE s.made_id = m.id AND s.stage = 'cooked') AS cooked,
    (SELECT sum(w.grams) FROM made_package p JOIN weighing_now w ON w.id = p.weighing_id WHERE p.made_id = m.id) AS packed,
    (SELECT coalesce(sum(w.count), 0) FROM made_package p JOIN weighing_now w ON w.id = p.weighing_id WHERE p.made_id = m.id) AS packages
  FROM made_batch_now m JOIN batch b ON b.id = m.batch_id`;

/** Weights of made batches: ingredients, weights on the way, packages, and what they come to. */
export function madeWeightRecords(db: Db) {
  const weighed = db.prepare<[number], WeighedRow>(
    `SELECT w.*, v.reason AS void_reason, v.by AS void_by FROM made_weighed w
     LEFT JOIN made_weighed_void v ON v.weighed_id = w.id WHERE w.made_id = ? ORDER BY w.id`,
  );
  const oneWeighed = db.prepare<[number], WeighedRow>(
    `SELECT w.*, v.reason AS void_reason, v.by AS void_by FROM made_weighed w
     LEFT JOIN made_weighed_void v ON v.weighed_id = w.id WHERE w.id = ?`,
  );
  const addWeighed = db.prepare(
    `INSERT INTO made_weighed (made_id, ingredient_id, typed, digits, decimals, unit, grams, lot, source, at, by)
     VALUES (@madeId, @ingredientId, @typed, @digits, @decimals, @unit, @grams, @lot, @source, @at, @by)`,
  );
  const voidWeighed = db.prepare(
    'INSERT INTO made_weighed_void (weighed_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  const addedTo = db
    .prepare<[number], number>(
      `SELECT coalesce(sum(w.grams), 0.0) FROM made_batch_now m JOIN made_weighed_now w ON w.made_id = m.id WHERE m.batch_id = ?`,
    )
    .pluck();
  const lastLot = db
    .prepare<[number], string>(
      "SELECT lot FROM made_weighed_now WHERE ingredient_id = ? AND lot <> '' ORDER BY id DESC LIMIT 1",
    )
    .pluck();
  const stages = db.prepare<[number], StageRow>(
    `SELECT s.*, v.reason AS void_reason, v.by AS void_by FROM made_stage s
     LEFT JOIN made_stage_void v ON v.stage_id = s.id WHERE s.made_id = ? ORDER BY s.id`,
  );
  const oneStage = db.prepare<[number], StageRow>(
    `SELECT s.*, v.reason AS void_reason, v.by AS void_by FROM made_stage s
     LEFT JOIN made_stage_void v ON v.stage_id = s.id WHERE s.id = ?`,
  );
  const addStage = db.prepare(
    `INSERT INTO made_stage (made_id, stage, pieces, typed, digits, decimals, unit, grams, source, at, by)
     VALUES (@madeId, @stage, @pieces, @typed, @digits, @decimals, @unit, @grams, @source, @at, @by)`,
  );
  const voidStage = db.prepare('INSERT INTO made_stage_void (stage_id, reason, at, by) VALUES (?, ?, ?, ?)');
  const packages = db.prepare<[number], MadePackageRow>(
    `SELECT w.id, p.made_id, w.product, w.count, w.typed, w.decimals, w.unit, w.grams, w.place, w.at, w.by
     FROM made_package p JOIN weighing_now w ON w.id = p.weighing_id WHERE p.made_id = ? ORDER BY w.id`,
  );
  const addPackage = db.prepare(
    'INSERT INTO made_package (weighing_id, made_id, at, by) VALUES (@weighingId, @madeId, @at, @by)',
  );
  const sums = db.prepare<[number], MadeSums>(`${SUMS} WHERE m.id = ?`);
  const sumsOfBatch = db.prepare<[number], MadeSums>(`${SUMS} WHERE m.batch_id = ? ORDER BY m.id`);
  const packedFrom = db.prepare<[number], MadePacked>(
    `SELECT m.id, m.recipe_id, p.weighing_id,
       (SELECT s.grams FROM made_start s WHERE s.made_id = m.id ORDER BY s.id DESC LIMIT 1) AS block
     FROM made_batch_now m LEFT JOIN made_package p ON p.made_id = m.id WHERE m.batch_id = ? ORDER BY m.id, p.weighing_id`,
  );
  const allSums = db.prepare<[], MadeSums>(`${SUMS} ORDER BY m.id`);
  return {
    /** Voided ones too, in order. */
    weighed: (madeId: number) => weighed.all(madeId),
    oneWeighed: (id: number) => oneWeighed.get(id),
    addWeighed: (row: { madeId: number; ingredientId: number; lot: string } & Typed & Signed): number =>
      Number(addWeighed.run(row).lastInsertRowid),
    voidWeighed: (id: number, reason: string, at: string, by: string): void =>
      void voidWeighed.run(id, reason, at, by),
    /** Weighed of ingredients for all products of a grind, grams. */
    addedTo: (batchId: number): number => addedTo.get(batchId) ?? 0,
    /** The lot that was last weighed of an ingredient. */
    lastLot: (ingredientId: number) => lastLot.get(ingredientId),
    stages: (madeId: number) => stages.all(madeId),
    oneStage: (id: number) => oneStage.get(id),
    addStage: (
      row: { madeId: number; stage: StageRow['stage']; pieces: number | null } & Typed & Signed,
    ): number => Number(addStage.run(row).lastInsertRowid),
    voidStage: (id: number, reason: string, at: string, by: string): void =>
      void voidStage.run(id, reason, at, by),
    packages: (madeId: number) => packages.all(madeId),
    addPackage: (row: { weighingId: number; madeId: number } & Signed): void => void addPackage.run(row),
    sums: (madeId: number) => sums.get(madeId),
    sumsOfBatch: (batchId: number) => sumsOfBatch.all(batchId),
    /** Its made batches that are not voided, a row for each package, also of voided ones. */
    packedFrom: (batchId: number) => packedFrom.all(batchId),
    /** Of every made batch that is not voided: what losses are learned from. */
    allSums: () => allSums.all(),
  };
}

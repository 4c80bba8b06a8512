import type { Db } from '../file/db.ts';
import type { MassUnit, WeighSource, WeighStage } from '../../trade/weighing.ts';

export interface NewWeighing {
  animalId: number | null;
  batchId: number | null;
  fatLotId: number | null;
  stage: string;
  part: string;
  primal: string | null;
  product: string | null;
  count: number | null;
  place: string | null;
  reading: { typed: string; digits: number; decimals: number; unit: MassUnit };
  tare: { typed: string; digits: number; decimals: number; unit: MassUnit } | null;
  grams: number;
  source: WeighSource;
  note: string;
  corrects: number | null;
  at: string;
  by: string;
}

export interface WeighingRecord {
  id: number;
  animal_id: number | null;
  batch_id: number | null;
  fat_lot_id: number | null;
  stage: WeighStage;
  part: string;
  primal: string | null;
  product: string | null;
  count: number | null;
  typed: string;
  digits: number;
  decimals: number;
  unit: MassUnit;
  tare_typed: string | null;
  tare_digits: number | null;
  tare_decimals: number | null;
  tare_unit: MassUnit | null;
  grams: number;
  place: string | null;
  source: WeighSource;
  note: string;
  corrects: number | null;
  at: string;
  by: string;
  batch: string | null;
  ticket: string | null;
  species: string | null;
  lot: string | null;
  lot_fat: number | null;
  lot_fat_sd: number | null;
  void_reason: string | null;
  void_at: string | null;
  void_by: string | null;
}

/** What the balance of an animal needs of a weight that is not voided. */
export type StandingWeight = Pick<
  WeighingRecord,
  'id' | 'stage' | 'part' | 'primal' | 'typed' | 'digits' | 'decimals' | 'unit' | 'grams' | 'at' | 'void_at'
>;

/** The criteria of a duplicate weighing. */
interface SameWeighing {
  animalId: number | null;
  batchId: number | null;
  stage: string;
  part: string;
  primal: string | null;
  grams: number;
}

export interface WeightSums {
  received: number | null;
  hanging: number | null;
  whole_cuts: number | null;
  trim: number | null;
  fat_saved: number | null;
  sinew: number | null;
  bone: number | null;
  damage: number | null;
  trim_ground: number;
  own_fat_ground: number;
  packed: number | null;
}

/** Number of recent weighings searched for the shop's containers, and maximum number of containers. */
const RECENT = 2000;
const MAX_CONTAINERS = 10;

/** Weighings: written once, voided by another row. */
export function weighingRecords(db: Db) {
  const insert = db.prepare(
    `INSERT INTO weighing (animal_id, batch_id, fat_lot_id, stage, part, primal, product, count, place, typed, digits, decimals, unit,
       tare_typed, tare_digits, tare_decimals, tare_unit, grams, source, note, corrects, at, by)
     VALUES (@animalId, @batchId, @fatLotId, @stage, @part, @primal, @product, @count, @place, @typed, @digits, @decimals, @unit,
       @tareTyped, @tareDigits, @tareDecimals, @tareUnit, @grams, @source, @note, @corrects, @at, @by)`,
  );
  const columns = `w.*, b.name AS batch, a.ticket, a.species, l.code AS lot, l.fat AS lot_fat, l.fat_sd AS lot_fat_sd, v.reason AS void_reason, v.at AS void_at, v.by AS void_by`;
  const from = `FROM weighing w LEFT JOIN batch b ON b.id = w.batch_id LEFT JOIN animal a ON a.id = w.animal_id
    LEFT JOIN fat_lot l ON l.id = w.fat_lot_id LEFT JOIN weighing_void v ON v.weighing_id = w.id`;
  const get = db.prepare<[number], WeighingRecord>(`SELECT ${columns} ${from} WHERE w.id = ?`);
  const ofAnimal = db.prepare<[number], WeighingRecord>(
    `SELECT ${columns} ${from} WHERE w.animal_id = ? ORDER BY w.id`,
  );
  const standingOf = db.prepare<[number], StandingWeight>(
    `SELECT id, stage, part, primal, typed, digits, decimals, unit, grams, at, NULL AS void_at
     FROM weighing_now WHERE animal_id = ? ORDER BY id`,
  );
  const ofBatch = db.prepare<[number], WeighingRecord>(
    `SELECT ${columns} ${from} WHERE w.batch_id = ? ORDER BY w.id`,
  );
  const sums = db.prepare<[number], WeightSums>(
    `SELECT received, hanging, whole_cuts, trim, fat_saved, sinew, bone, damage, trim_ground, own_fat_ground, packed
     FROM animal_sum WHERE animal_id = ?`,
  );
  const packedBefore = db.prepare<[number, number], { animal: number; product: string | null }>(
    `SELECT s.animal_id AS animal, w.product FROM (
       SELECT animal_id FROM animal_sum WHERE animal_id < ? AND whole_cuts > 0 AND stage IN ('ready', 'released')
       ORDER BY animal_id DESC LIMIT ?) s
     LEFT JOIN weighing_now w ON w.animal_id = s.animal_id AND w.stage = 'packed' AND +w.batch_id IS NULL`,
  );
  const counted = (of: 'animal_id' | 'batch_id') =>
    db.prepare<[number], { all: number; standing: number }>(
      `SELECT count(*) AS "all", count(*) - count(v.weighing_id) AS standing
       FROM weighing w LEFT JOIN weighing_void v ON v.weighing_id = w.id WHERE w.${of} = ?`,
    );
  const countOfAnimal = counted('animal_id');
  const countOfBatch = counted('batch_id');
  const voidOne = db.prepare('INSERT INTO weighing_void (weighing_id, reason, at, by) VALUES (?, ?, ?, ?)');
  const correction = db.prepare<[number], number>('SELECT 1 FROM weighing WHERE corrects = ?').pluck();
  // The plus before a column forces the index: scanning back from the newest id ends early only if the same was just weighed.
  // The plus before a parameter keeps the statement from being compiled again for each weight.
  const lastSame = (
    of: 'animal_id = @animalId AND +batch_id IS @batchId' | 'batch_id = @batchId AND +animal_id IS @animalId',
  ) =>
    db
      .prepare<SameWeighing, string>(
        `SELECT at FROM weighing_now WHERE ${of} AND stage = +@stage AND part = +@part AND primal IS +@primal
           AND abs(grams - +@grams) < 0.001 ORDER BY +id DESC LIMIT 1`,
      )
      .pluck();
  const lastOfAnimal = lastSame('animal_id = @animalId AND +batch_id IS @batchId');
  const lastOfBatch = lastSame('batch_id = @batchId AND +animal_id IS @animalId');
  const containers = db.prepare<[], { digits: number; decimals: number; unit: MassUnit }>(
    `SELECT tare_digits AS digits, tare_decimals AS decimals, tare_unit AS unit
     FROM (SELECT tare_digits, tare_decimals, tare_unit FROM weighing ORDER BY id DESC LIMIT ${RECENT})
     WHERE tare_digits > 0 GROUP BY 1, 2, 3 ORDER BY count(*) DESC LIMIT ${MAX_CONTAINERS}`,
  );
  return {
    /** Whether another weight corrects or restores this one. */
    isCorrected: (id: number): boolean => correction.get(id) !== undefined,
    add(weighing: NewWeighing): number {
      const { reading, tare, ...rest } = weighing;
      const bound = {
        ...rest,
        ...reading,
        tareTyped: tare?.typed ?? null,
        tareDigits: tare?.digits ?? null,
        tareDecimals: tare?.decimals ?? null,
        tareUnit: tare?.unit ?? null,
      };
      return Number(insert.run(bound).lastInsertRowid);
    },
    get: (id: number) => get.get(id),
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    /** Those of an animal that are not voided, in the order in which they were entered. */
    standing: (animalId: number) => standingOf.all(animalId),
    ofBatch: (batchId: number) => ofBatch.all(batchId),
    sums: (animalId: number): WeightSums | undefined => sums.get(animalId),
    /** Products packed at the Table for the preceding animals whose whole cuts were weighed; null for none. */
    packedBefore: (animalId: number, animals: number) => packedBefore.all(animalId, animals),
    /** Number of weights of an animal or a batch: all, and valid ones. */
    count: (of: 'animal' | 'batch', id: number) =>
      (of === 'animal' ? countOfAnimal : countOfBatch).get(id) ?? { all: 0, standing: 0 },
    /** Recently subtracted containers, most frequent first. */
    containers: () => containers.all(),
    /** The last weighing with the same weight of the same part, to detect a duplicate. */
    lastSame: (same: SameWeighing) => (same.batchId === null ? lastOfAnimal : lastOfBatch).get(same),
    void: (id: number, reason: string, at: string, by: string): void => void voidOne.run(id, reason, at, by),
  };
}

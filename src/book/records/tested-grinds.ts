import { isGone, SCALE_STEP_GRAMS } from '../changes/topics.ts';
import type { Db } from '../file/db.ts';

/** A fat test of a finished grind. */
export interface GrindTest {
  batch: number;
  fat: number;
  sd: number;
}

/** A source of a tested grind: one animal's trim or one lot of fat. */
export interface GrindSource {
  batch: number;
  animal: number | null;
  species: string | null;
  lot: number | null;
  lot_fat: number | null;
  lot_fat_sd: number | null;
  grams: number;
  /** The last batch that uses it; null while more may follow. */
  until: number | null;
}

/** Finished grinds with a fat test, and their sources: the training data of the fat model. */
export function testedGrinds(db: Db) {
  // A test before a later weight in is not one of the finished grind. A correction is no new weight. The unary plus
  // keeps the index by batch: almost no weighing corrects another.
  const tests = db.prepare<[number], GrindTest>(
    `SELECT t.batch_id AS batch, t.fat, t.sd FROM fat_test t JOIN batch b ON b.id = t.batch_id
     WHERE t.batch_id > ? AND b.state = 'done' AND NOT EXISTS (
       SELECT 1 FROM weighing w WHERE w.batch_id = t.batch_id AND w.stage = 'grinder' AND +w.corrects IS NULL AND w.at > t.at
         AND (NOT EXISTS (SELECT 1 FROM weighing_void v WHERE v.weighing_id = w.id)
           OR EXISTS (SELECT 1 FROM weighing c WHERE c.corrects = w.id)))
     ORDER BY t.batch_id, t.id`,
  );
  // An animal's own fat is used only with the animal.
  const sources = db.prepare<[number], GrindSource>(
    `SELECT s.batch_id AS batch, nullif(s.animal_id, 0) AS animal, nullif(s.fat_lot_id, 0) AS lot, s.grams,
       a.species, l.fat AS lot_fat, l.fat_sd AS lot_fat_sd,
       CASE
         WHEN s.animal_id > 0 THEN iif(a.stage IN ('ready', 'released', 'disposed') OR (s.fat_lot_id = 0 AND ${isGone('a')}),
           (SELECT max(m.batch_id) FROM batch_animal m WHERE m.animal_id = s.animal_id), NULL)
         WHEN (SELECT f.left_grams FROM fat_lot_sum f WHERE f.lot_id = s.fat_lot_id) <= ${SCALE_STEP_GRAMS}
           THEN (SELECT max(w.batch_id) FROM weighing w WHERE w.fat_lot_id = s.fat_lot_id)
       END AS until
     FROM batch_source_sum s LEFT JOIN animal_sum a ON a.animal_id = s.animal_id LEFT JOIN fat_lot l ON l.id = s.fat_lot_id
     WHERE s.batch_id IN (SELECT batch_id FROM fat_test WHERE batch_id > ?) ORDER BY s.batch_id, s.animal_id, s.fat_lot_id`,
  );
  return {
    /** Of batches after this one, in order; 0 for all. */
    tests: (after: number) => tests.all(after),
    sources: (after: number) => sources.all(after),
  };
}

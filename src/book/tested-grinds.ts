import type { Db } from './open.ts';

/** A fat test of a finished grind. */
export interface GrindTest {
  batch: number;
  fat: number;
  sd: number;
}

/** What went into a tested grind of one animal's trim or of one lot of fat. */
export interface GrindSource {
  batch: number;
  animal: number | null;
  species: string | null;
  lot: number | null;
  lot_fat: number | null;
  lot_fat_sd: number | null;
  grams: number;
  /** The last batch that takes of it; null while there may be more. */
  until: number | null;
}

/** Finished grinds that were tested for their fat, and what had gone into them: what the shop learns its fat from. */
export function testedGrinds(db: Db) {
  // A test that more was weighed in after is not one of the finished grind. A correction is no new weight.
  // The plus keeps to the index by batch: nearly every weighing corrects none.
  const tests = db.prepare<[], GrindTest>(
    `SELECT t.batch_id AS batch, t.fat, t.sd FROM fat_test t JOIN batch b ON b.id = t.batch_id
     WHERE b.state = 'done' AND NOT EXISTS (
       SELECT 1 FROM weighing w WHERE w.batch_id = t.batch_id AND w.stage = 'grinder' AND +w.corrects IS NULL AND w.at > t.at
         AND (NOT EXISTS (SELECT 1 FROM weighing_void v WHERE v.weighing_id = w.id)
           OR EXISTS (SELECT 1 FROM weighing c WHERE c.corrects = w.id)))
     ORDER BY t.batch_id, t.id`,
  );
  // An animal's own fat goes only where the animal goes. Less than 5 g left of a lot is a rounded scale step.
  const sources = db.prepare<[], GrindSource>(
    `SELECT s.*, a.species, l.fat AS lot_fat, l.fat_sd AS lot_fat_sd, CASE
       WHEN a.stage IN ('released', 'disposed') THEN
         (SELECT max(m.batch_id) FROM batch_animal m WHERE m.animal_id = s.animal)
       WHEN s.animal IS NULL AND (SELECT sum(m.grams) FROM fat_movement m WHERE m.lot_id = s.lot) <= 5 THEN
         (SELECT max(x.batch_id) FROM fat_movement m JOIN weighing x ON x.id = m.weighing_id WHERE m.lot_id = s.lot)
       END AS until
     FROM (SELECT w.batch_id AS batch, w.animal_id AS animal, w.fat_lot_id AS lot, sum(w.grams) AS grams
       FROM weighing_now w WHERE w.stage = 'grinder' AND w.batch_id IN (SELECT batch_id FROM fat_test) GROUP BY 1, 2, 3) s
     LEFT JOIN animal a ON a.id = s.animal LEFT JOIN fat_lot l ON l.id = s.lot ORDER BY s.batch, s.animal, s.lot`,
  );
  return { tests: () => tests.all(), sources: () => sources.all() };
}

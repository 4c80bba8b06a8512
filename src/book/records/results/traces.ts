import type { Db } from '../../file/db.ts';

/** When a batch was in the grinder; see `BatchTimes` of the core. */
export interface TimesRow {
  id: number;
  first: string;
  ground: string;
  clear: string | null;
  last: string;
}

/** An animal that tested positive. */
export interface PositiveRow {
  id: number;
  ticket: string;
}

/** An animal's packages of one product, packed at the Table without a batch. */
export interface TablePackedRow {
  animal: number;
  product: string;
  count: number;
  grams: number;
  /** Times of the first and the last package. */
  first: string;
  last: string;
  /** Time of the first weight of a part at the Table; null without one. */
  cut: string | null;
}

/** The time at which the meat of a weight `w` was weighed: for a correction, that of the corrected weight. */
const WEIGHED_AT = `CASE WHEN w.corrects IS NULL THEN w.at ELSE (
    WITH RECURSIVE first_of (corrects, at) AS (SELECT f.corrects, f.at FROM weighing f WHERE f.id = w.corrects
      UNION ALL SELECT f.corrects, f.at FROM weighing f JOIN first_of n ON f.id = n.corrects)
    SELECT at FROM first_of WHERE corrects IS NULL) END`;

/** Valid weights with that time. */
const WEIGHED_THEN = `(SELECT w.batch_id, w.stage, ${WEIGHED_AT} AS at FROM weighing_now w)`;

/**
 * Times of the batches that were in the grinder, by first weight in. `clear` is the first valid package after the
 * last weight in, because earlier packages say nothing about meat added later.
 * @param which a condition on `b`, the batch
 */
export const timesOf = (which: string): string => `(
  SELECT id, min(at) FILTER (WHERE what <> 'packed') AS first, max(at) FILTER (WHERE what <> 'packed') AS ground,
    iif(max(at) FILTER (WHERE what = 'pass') >= coalesce(max(last_in), ''), max(at) FILTER (WHERE what = 'pass'),
      min(at) FILTER (WHERE what = 'packed' AND at >= coalesce(last_in, ''))) AS clear,
    max(at) AS last
  FROM (SELECT *, max(at) FILTER (WHERE what = 'grinder') OVER (PARTITION BY id) AS last_in FROM (
    SELECT b.id, w.at, w.stage AS what FROM batch b JOIN ${WEIGHED_THEN} w ON w.batch_id = b.id
      WHERE ${which} AND w.stage IN ('grinder', 'packed')
    UNION ALL SELECT b.id, p.at, 'pass' FROM batch b JOIN grind_pass p ON p.batch_id = b.id WHERE ${which}))
  GROUP BY id HAVING first IS NOT NULL)`;

/** Queries behind the tracing of positive results. */
export function traceRecords(db: Db) {
  // Positive results are few and have an index of their own.
  const positives = db.prepare<{ season: number }, PositiveRow>(
    `SELECT DISTINCT a.id, a.ticket FROM hold_now n JOIN animal a ON a.id = n.animal_id
     WHERE n.id IN (SELECT hold_id FROM hold_result WHERE result = 'positive' UNION SELECT hold_id FROM hold_end WHERE outcome = 'positive')
       AND n.positive = 1 AND EXISTS (SELECT 1 FROM batch_animal m JOIN batch b ON b.id = m.batch_id
         WHERE m.animal_id = a.id AND b.season = @season)
     ORDER BY a.id`,
  );
  const batches = db.prepare<{ season: number }, TimesRow>(
    `SELECT * FROM ${timesOf('b.season = @season')} ORDER BY first, id`,
  );
  // Own fat belongs to its animal.
  const members = db.prepare<{ season: number }, { batch_id: number; animal_id: number }>(
    `SELECT DISTINCT w.batch_id, w.animal_id FROM batch b JOIN weighing_now w ON w.batch_id = b.id
     WHERE b.season = @season AND w.stage = 'grinder' AND w.animal_id IS NOT NULL ORDER BY w.batch_id, w.animal_id`,
  );
  const cleanings = db.prepare<[string, string], { at: string; batch: number | null }>(
    'SELECT at, batch_id AS batch FROM grinder_cleaning_now WHERE at >= ? AND at <= ? ORDER BY at, id',
  );
  // The unary plus forces the index by animal: by batch, each animal would read all weighings without a batch.
  const tablePacked = db.prepare<{ season: number }, TablePackedRow>(
    `SELECT animal, product, sum(count) AS count, sum(grams) AS grams, min(at) AS first, max(at) AS last,
       (SELECT min(c.at) FROM weighing c WHERE c.animal_id = animal AND c.stage IN ('primal', 'cut')
         AND NOT EXISTS (SELECT 1 FROM weighing_void v WHERE v.weighing_id = c.id)) AS cut
     FROM (SELECT w.animal_id AS animal, w.product, w.count, w.grams, ${WEIGHED_AT} AS at
       FROM animal a CROSS JOIN weighing w ON w.animal_id = a.id
       WHERE a.season = @season AND w.stage = 'packed' AND +w.batch_id IS NULL AND w.product IS NOT NULL
         AND NOT EXISTS (SELECT 1 FROM weighing_void v WHERE v.weighing_id = w.id))
     GROUP BY animal, product ORDER BY animal, product`,
  );
  return {
    /** Packages packed at the Table without a batch, of animals of the season. */
    tablePacked: (season: number) => tablePacked.all({ season }),
    /** Positive animals that were planned into a batch of the season. */
    positives: (season: number) => positives.all({ season }),
    /** Batches of the season that were in the grinder, with times. */
    batches: (season: number) => batches.all({ season }),
    /** Animals weighed into each batch of the season. */
    members: (season: number) => members.all({ season }),
    /** Valid cleanings in a time range. */
    cleanings: (from: string, until: string) => cleanings.all(from, until),
  };
}

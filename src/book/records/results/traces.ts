import type { Db } from '../../file/db.ts';

interface TracedRow {
  id: number;
  first: string;
  ground: string;
  last: string;
}

/** An animal that tested positive. */
export interface PositiveRow {
  id: number;
  ticket: string;
}

/** Weights that count, by the moment at which the meat was weighed: a correction by that of the weight that it corrects. */
export const WEIGHED_THEN = `(SELECT w.batch_id, w.stage, CASE WHEN w.corrects IS NULL THEN w.at ELSE (
    WITH RECURSIVE first_of (corrects, at) AS (SELECT f.corrects, f.at FROM weighing f WHERE f.id = w.corrects
      UNION ALL SELECT f.corrects, f.at FROM weighing f JOIN first_of n ON f.id = n.corrects)
    SELECT at FROM first_of WHERE corrects IS NULL) END AS at
  FROM weighing_now w)`;

/** What tracing a positive result through batches rests on. */
export function traceRecords(db: Db) {
  // Positive results are few and have an index of their own.
  const positives = db.prepare<{ season: number }, PositiveRow>(
    `SELECT DISTINCT a.id, a.ticket FROM hold_now n JOIN animal a ON a.id = n.animal_id
     WHERE n.id IN (SELECT hold_id FROM hold_result WHERE result = 'positive' UNION SELECT hold_id FROM hold_end WHERE outcome = 'positive')
       AND n.positive = 1 AND EXISTS (SELECT 1 FROM batch_animal m JOIN batch b ON b.id = m.batch_id
         WHERE m.animal_id = a.id AND b.season = @season)
     ORDER BY a.id`,
  );
  const batches = db.prepare<{ season: number }, TracedRow>(
    `SELECT * FROM (SELECT id, min(at) FILTER (WHERE at_grinder) AS first, max(at) FILTER (WHERE at_grinder) AS ground, max(at) AS last FROM (
       SELECT b.id, w.at, w.stage = 'grinder' AS at_grinder FROM batch b JOIN ${WEIGHED_THEN} w ON w.batch_id = b.id
         WHERE b.season = @season AND w.stage IN ('grinder', 'packed')
       UNION ALL SELECT b.id, p.at, 1 FROM batch b JOIN grind_pass p ON p.batch_id = b.id WHERE b.season = @season)
     GROUP BY id) WHERE first IS NOT NULL ORDER BY first, id`,
  );
  // Own fat is weighed with its animal.
  const members = db.prepare<{ season: number }, { batch_id: number; animal_id: number }>(
    `SELECT DISTINCT w.batch_id, w.animal_id FROM batch b JOIN weighing_now w ON w.batch_id = b.id
     WHERE b.season = @season AND w.stage = 'grinder' AND w.animal_id IS NOT NULL ORDER BY w.batch_id, w.animal_id`,
  );
  const cleanings = db
    .prepare<[string, string], string>(
      'SELECT at FROM grinder_cleaning_now WHERE at >= ? AND at <= ? ORDER BY at',
    )
    .pluck();
  return {
    /** Animals that tested positive and were planned into a batch of the season. */
    positives: (season: number) => positives.all({ season }),
    /** Batches of the season that were at work, and when. */
    batches: (season: number) => batches.all({ season }),
    /** Whose meat was weighed into each batch of the season. */
    members: (season: number) => members.all({ season }),
    /** Moments of the cleanings that count, between two moments. */
    cleanings: (from: string, until: string) => cleanings.all(from, until),
  };
}

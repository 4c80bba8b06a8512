import type { ChangeLog } from '../changes/change-log.ts';
import { cachedRows } from './cached-rows.ts';
import type { Db } from '../file/db.ts';

/** A quote that led to an animal: its predicted take-home, and the quoted weight, in grams. */
export interface Quoted {
  animal_id: number;
  quote: string;
  low: number;
  mean: number;
  high: number;
  quotedWeight: number;
}

/** A season's predictions, to be compared with the observed values. */
export function seasonCheck(db: Db, changes: ChangeLog) {
  // Read from the saved JSON: 1,500 of them take 7 ms.
  const quoted = cachedRows<Quoted, Quoted>(
    db,
    changes,
    (condition) => `SELECT s.animal_id, q.name AS quote,
       q.answered ->> '$.takeHomeGrams.low' AS low, q.answered ->> '$.takeHomeGrams.mean' AS mean,
       q.answered ->> '$.takeHomeGrams.high' AS high, q.answered ->> '$.hangingGrams.mean' AS quotedWeight
     FROM animal_sum s JOIN quote_taken t ON t.animal_id = s.animal_id JOIN quote q ON q.id = t.quote_id WHERE ${condition}`,
    (row) => row,
  );
  const bought = db.prepare<[string], { id: number; grams: number }>(
    `SELECT x.animal_id AS id, sum(x.grams * b.bought / b.own) AS grams FROM json_each(?) j
     CROSS JOIN batch_source_sum x ON x.animal_id = j.value AND x.animal_id > 0
     JOIN batch_sum b ON b.batch_id = x.batch_id WHERE b.own > 0 AND b.bought > 0 GROUP BY 1`,
  );
  const change = `SELECT sum(
       (SELECT sum(w.grams) FROM made_package p JOIN weighing_now w ON w.id = p.weighing_id WHERE p.made_id = m.id)
       - (SELECT s.grams FROM made_start s WHERE s.made_id = m.id ORDER BY s.id DESC LIMIT 1))
     FROM made_batch_now m WHERE m.batch_id = x.batch_id`;
  const madeChange = db.prepare<[string], { id: number; grams: number }>(
    `SELECT x.animal_id AS id, sum(x.grams * (${change}) / b.own) AS grams FROM json_each(?) j
     CROSS JOIN batch_source_sum x ON x.animal_id = j.value AND x.animal_id > 0
     JOIN batch_sum b ON b.batch_id = x.batch_id
     WHERE b.own > 0 AND EXISTS (SELECT 1 FROM made_batch_now m WHERE m.batch_id = x.batch_id) GROUP BY 1 HAVING grams IS NOT NULL`,
  );
  return {
    /** Of the season's animals, unordered. */
    quoted,
    /** Bought fat in each animal's grinds, if any: each batch's in proportion to the meat put in. */
    bought: (ids: readonly number[]): ReadonlyMap<number, number> =>
      new Map(bought.all(JSON.stringify(ids)).map(({ id, grams }) => [id, grams])),
    /**
     * What the smokehouse made of each animal's meat, if it did: packed less the meat that went in, divided likewise. Below 0 where a
     * cook lost more than a recipe added.
     */
    madeChange: (ids: readonly number[]): ReadonlyMap<number, number> =>
      new Map(madeChange.all(JSON.stringify(ids)).map(({ id, grams }) => [id, grams])),
  };
}

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
  return {
    /** Of the season's animals, unordered. */
    quoted,
    /** Bought fat in each animal's grinds, if any: each batch's in proportion to the meat put in. */
    bought: (ids: readonly number[]): ReadonlyMap<number, number> =>
      new Map(bought.all(JSON.stringify(ids)).map(({ id, grams }) => [id, grams])),
  };
}

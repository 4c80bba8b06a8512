import { filtered } from './filtered.ts';
import type { Db } from '../file/db.ts';
import type { SumFilter } from './season-filter.ts';

/** Every part was weighed, so that the remainder is meaningful; `isWeighedWhole` is the same test in memory. */
const WEIGHED_WHOLE = `s.finished = 1 AND s.base > 0 AND s.take_home IS NOT NULL AND s.bone IS NOT NULL AND s.sinew IS NOT NULL`;

/** These animals' shares of their batches. */
interface GroundSums {
  /** What the batches made. */
  product: string;
  batches: number;
  /** Their own meat and fat in, and their shares of the bought fat, of what recipes added, and of the output. */
  own: number;
  bought: number;
  added: number;
  out: number;
}

/** Where the hanging weight went, beyond the animals' own sums. */
export function seasonPounds(db: Db) {
  const ground = filtered<GroundSums>(
    db,
    (conditions) =>
      `SELECT b.product, count(*) AS batches, total(mine) AS own, total(b.bought * mine / b.own) AS bought,
         total((SELECT total(w.grams) FROM made_batch_now d JOIN made_weighed_now w ON w.made_id = d.id WHERE d.batch_id = b.batch_id)
           * mine / b.own) AS added,
         total(b.out * mine / b.own) AS out
       FROM (SELECT g.batch_id, sum(g.grams) AS mine FROM animal_sum s JOIN batch_source_sum g ON g.animal_id = s.animal_id
         WHERE g.animal_id > 0 AND ${WEIGHED_WHOLE} AND ${conditions} GROUP BY g.batch_id) m
       JOIN batch_sum b ON b.batch_id = m.batch_id WHERE b.state = 'done' AND b.own > 0 AND b.out > 0 GROUP BY b.product`,
  );
  const billed = db.prepare<[number, string], { animal_id: number; minor: number }>(
    `SELECT s.animal_id, b.subtotal_minor AS minor FROM animal_sum s JOIN bill b ON b.animal_id = s.animal_id
     WHERE s.season = ? AND b.currency = ? AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)`,
  );
  return {
    /** By product, those with a batch. */
    ground: (filter: SumFilter): GroundSums[] => ground.all(filter),
    /** Revenue before tax of each valid bill of the season's animals. */
    billed: (season: number, currency: string) => billed.all(season, currency),
  };
}

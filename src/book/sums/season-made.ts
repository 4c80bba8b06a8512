/** What the smokehouse made of a season's animals, by product. */
import { filtered } from './filtered.ts';
import type { Db } from '../file/db.ts';
import type { SumFilter } from './season-filter.ts';

/** These animals' shares of the packed batches of a product, grams. block + added = packed + heat + left. */
export interface SeasonMade {
  product: string;
  batches: number;
  /** Meat and fat. */
  block: number;
  /** Salt, cure, spice and water. */
  added: number;
  packed: number;
  /** Lost after it was stuffed, of products that are not packed raw. */
  heat: number;
  /** Lost before that, in mixer and stuffer. */
  rest: number;
}

export function seasonMade(db: Db) {
  const made = filtered<SeasonMade>(
    db,
    (conditions) =>
      `SELECT product, count(*) AS batches, total(part * block) AS block, total(part * added) AS added, total(part * packed) AS packed,
         total(part * iif(stuffed IS NULL, 0.0, stuffed - packed)) AS heat,
         total(part * (block + added - coalesce(stuffed, packed))) AS rest
       FROM (SELECT v.product, m.part, t.grams AS block,
           (SELECT total(w.grams) FROM made_weighed_now w WHERE w.made_id = d.id) AS added,
           (SELECT sum(w.grams) FROM made_package p JOIN weighing_now w ON w.id = p.weighing_id WHERE p.made_id = d.id) AS packed,
           iif(json_extract(v.body, '$.finish') = 'raw', NULL,
             (SELECT sum(g.grams) FROM made_stage_now g WHERE g.made_id = d.id AND g.stage = 'stuffed')) AS stuffed
         FROM (SELECT g.batch_id, sum(g.grams) / b.own AS part FROM animal_sum s JOIN batch_source_sum g ON g.animal_id = s.animal_id
           JOIN batch_sum b ON b.batch_id = g.batch_id WHERE g.animal_id > 0 AND b.own > 0 AND ${conditions} GROUP BY g.batch_id) m
         JOIN made_batch_now d ON d.batch_id = m.batch_id
         JOIN made_start t ON t.id = (SELECT max(x.id) FROM made_start x WHERE x.made_id = d.id)
         JOIN recipe_version v ON v.id = t.recipe_version_id)
       WHERE packed > 0 GROUP BY product ORDER BY packed DESC, product`,
  );
  return { of: (filter: SumFilter): SeasonMade[] => made.all(filter) };
}

import { filtered } from './filtered.ts';
import type { Db } from '../file/db.ts';
import type { SumFilter } from './season-filter.ts';

/** A batch with its planned and last tested fat. */
export interface BatchFat {
  id: number;
  name: string;
  started_on: string;
  product: string;
  target_fat: number | null;
  planned: number | null;
  tested: number | null;
}

/** Grams in a batch from one animal (with a lot: its own saved fat) or from one lot of bought fat. */
export interface BatchSource {
  batch: number;
  animal_id: number | null;
  species: string | null;
  fat_lot_id: number | null;
  lot_source: string | null;
  lot_name: string | null;
  lot_fat: number | null;
  lot_fat_sd: number | null;
  cost_minor: number | null;
  cost_unit: 'lb' | 'kg' | null;
  grams: number;
}

/** Fat of a season's grinds: batches with an animal of the filter, by the batch's own season and day. */
export function seasonFat(db: Db) {
  const chosen = (conditions: string): string =>
    `FROM batch b WHERE b.season = @of AND b.started_on BETWEEN @since AND @until AND EXISTS (
       SELECT 1 FROM batch_animal m JOIN animal_sum s ON s.animal_id = m.animal_id WHERE m.batch_id = b.id AND ${conditions})`;
  const batches = filtered<Omit<BatchFat, 'planned'>>(
    db,
    (conditions) => `SELECT b.id, b.name, b.started_on, b.product, b.target_fat,
       (SELECT t.fat FROM fat_test t WHERE t.batch_id = b.id ORDER BY t.id DESC LIMIT 1) AS tested
     ${chosen(conditions)} ORDER BY b.id`,
  );
  const plans = db.prepare<[string], { id: number; planned: number | null }>(
    "SELECT b.id, b.plan ->> '$.fat' AS planned FROM json_each(?) j CROSS JOIN batch b ON b.id = j.value",
  );
  /** Cache by batch: a plan is written once and parsed once. */
  const planned = new Map<number, number | null>();
  const sources = filtered<BatchSource>(
    db,
    (
      conditions,
    ) => `SELECT x.batch_id AS batch, nullif(x.animal_id, 0) AS animal_id, a.species, nullif(x.fat_lot_id, 0) AS fat_lot_id,
       l.source AS lot_source, l.name AS lot_name, l.fat AS lot_fat, l.fat_sd AS lot_fat_sd, l.cost_minor, l.cost_unit, x.grams
     FROM batch_source_sum x LEFT JOIN animal a ON a.id = x.animal_id LEFT JOIN fat_lot l ON l.id = x.fat_lot_id
     WHERE x.batch_id IN (SELECT b.id ${chosen(conditions)}) ORDER BY x.batch_id, x.animal_id, x.fat_lot_id`,
  );
  const saved = filtered<{ animals: number; saved: number; ground: number }>(
    db,
    (
      conditions,
    ) => `SELECT count(*) AS animals, coalesce(sum(s.fat_saved), 0.0) AS saved, coalesce(sum(s.own_fat_ground), 0.0) AS ground
     FROM animal_sum s WHERE (s.fat_saved > 0 OR s.own_fat_ground > 0) AND ${conditions}`,
  );
  const species = db.prepare<[string], { batch: number; species: string }>(
    `SELECT m.batch_id AS batch, a.species FROM json_each(?) j CROSS JOIN batch_animal m ON m.batch_id = j.value
     JOIN animal_sum a ON a.animal_id = m.animal_id GROUP BY 1, 2 ORDER BY min(m.animal_id)`,
  );
  return {
    /** In the order of their start. */
    batches(filter: SumFilter): BatchFat[] {
      const rows = batches.all(...ofBatches(filter));
      const unread = rows.filter(({ id }) => !planned.has(id)).map(({ id }) => id);
      if (unread.length > 0)
        for (const one of plans.all(JSON.stringify(unread))) planned.set(one.id, one.planned);
      return rows.map((row) => ({ ...row, planned: planned.get(row.id) ?? null }));
    },
    sources: (filter: SumFilter) => sources.all(...ofBatches(filter)),
    /** Own fat saved at the Table and own fat ground, over the filter's animals that gave some. */
    saved: (filter: SumFilter) => saved.get(filter) ?? { animals: 0, saved: 0, ground: 0 },
    /** Codes of the species in each of these batches. */
    species: (batchIds: readonly number[]): ReadonlyMap<number, readonly string[]> => {
      const codes = new Map<number, string[]>(batchIds.map((id) => [id, []]));
      for (const one of species.all(JSON.stringify(batchIds))) codes.get(one.batch)?.push(one.species);
      return codes;
    },
  };
}

/** Season and dates are those of the batch; all other filters must match one of its animals. */
function ofBatches({
  season,
  from,
  to,
  ...animal
}: SumFilter): [SumFilter, Record<string, string | number | null>] {
  return [animal, { of: season ?? null, since: from ?? '', until: to ?? '9999-12-31' }];
}

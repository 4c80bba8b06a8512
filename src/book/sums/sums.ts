import type { Db } from '../file/db.ts';
import type { WeightSums } from '../records/weighings.ts';
import type { Age, Brought, Sex } from '../../trade/animal.ts';

/** One finished animal's weights, for the yield model and the season views. */
export interface YieldRow extends WeightSums {
  id: number;
  ticket: string;
  season: number;
  species: string;
  sex: Sex;
  age: Age;
  brought: Brought;
  damage_note: string;
  /** Ordered share of whole cuts, by the newest instructions; null without any. */
  cuts_ordered: number | null;
  /** Share of the Table's packages that the instructions grind; 0 for none. */
  packed_ground: number;
}

export interface TrimRow {
  id: number;
  ticket: string;
  hunter: string;
  species: string;
  refuses_pooling: number;
  trim_left: number;
}

/** Sums over many animals. */
export function summaries(db: Db) {
  const finished = (condition: string): string =>
    `SELECT a.id, a.ticket, a.season, a.species, a.sex, a.age, a.brought, a.damage AS damage_note,
       w.received, w.hanging, w.whole_cuts, w.trim, w.fat_saved, w.sinew, w.bone, w.damage, w.trim_ground, w.own_fat_ground, w.packed,
       c.cuts_ordered, coalesce(c.packed_ground, 0.0) AS packed_ground
     FROM animal_sum w JOIN animal a ON a.id = w.animal_id LEFT JOIN cut_sum c ON c.animal_id = w.animal_id
     WHERE w.finished = 1 AND ${condition} ORDER BY a.id`;
  const ever = db.prepare<[], YieldRow>(finished('1'));
  const ofSeason = db.prepare<[number], YieldRow>(finished('w.season = ?'));
  const one = db.prepare<[number], YieldRow>(finished('w.animal_id = ?'));
  const trimWaiting = db.prepare<[number], TrimRow>(
    `SELECT a.id, a.ticket, h.name AS hunter, a.species, h.refuses_pooling, w.trim - w.trim_ground AS trim_left
     FROM animal a JOIN hunter h ON h.id = a.hunter_id JOIN animal_sum w ON w.animal_id = a.id
     WHERE a.stage IN ('hanging', 'cutting', 'packing') AND w.trim - w.trim_ground > ?
       AND NOT EXISTS (SELECT 1 FROM hold_now n WHERE n.animal_id = a.id AND n.positive)
     ORDER BY a.received_on, a.id`,
  );
  const trimInto = db.prepare<[number], { product: string; grams: number }>(
    `SELECT b.product, sum(w.grams) AS grams FROM weighing_now w JOIN batch b ON b.id = w.batch_id
     WHERE w.animal_id = ? AND w.stage = 'grinder' AND w.part = 'trim' GROUP BY b.product`,
  );
  const counts = db.prepare<[number], { animals: number }>(
    'SELECT count(*) AS animals FROM animal WHERE season = ?',
  );
  return {
    /** Finished animals, of one season or of all. */
    finished: (season?: number) => (season === undefined ? ever.all() : ofSeason.all(season)),
    /** One animal, if it is finished. */
    finishedOne: (animalId: number) => one.get(animalId),
    /** Animals in the shop with more grams of trim left than this, except positive ones. */
    trimWaiting: (moreThan: number) => trimWaiting.all(moreThan),
    /** An animal's trim in batches, by product. */
    trimInto: (animalId: number) => trimInto.all(animalId),
    animals: (season: number) => counts.get(season)?.animals ?? 0,
  };
}

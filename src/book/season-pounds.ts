import { filtered } from './filtered.ts';
import type { Db } from './open.ts';
import type { SumFilter } from './season-filter.ts';

/** Every part was weighed, so that what is left over says something. */
const WEIGHED_WHOLE = `s.finished = 1 AND s.base > 0 AND s.take_home IS NOT NULL AND s.bone IS NOT NULL AND s.sinew IS NOT NULL`;

/** Sums in grams over animals whose every part was weighed: base = parts + shrink + unexplained − over. */
export interface PoundSums {
  n: number;
  base: number;
  whole_cuts: number;
  trim: number;
  fat_saved: number;
  bone: number;
  sinew: number;
  damage: number;
  shrink: number;
  unexplained: number;
  over: number;
  packed: number;
}

/** The part that these animals' meat had in their batches. */
export interface GroundSums {
  batches: number;
  /** Their own meat and fat in, their part of the bought fat, of what came out, and of what the grinder kept. */
  own: number;
  bought: number;
  out: number;
}

/** Where the weight on the hook went. */
export function seasonPounds(db: Db) {
  const sums = filtered<PoundSums>(
    db,
    (conditions) =>
      `SELECT count(*) AS n, total(base) AS base, total(cuts) AS whole_cuts, total(meat) AS trim, total(fat) AS fat_saved,
         total(bone) AS bone, total(sinew) AS sinew, total(damage) AS damage,
         total(min(max(rest, 0.0), @shrink * base)) AS shrink, total(max(rest - @shrink * base, 0.0)) AS unexplained,
         total(max(-rest, 0.0)) AS over, total(packed) AS packed
       FROM (
         SELECT s.base, coalesce(s.trim, s.trim_ground) AS meat, coalesce(s.fat_saved, s.own_fat_ground) AS fat,
           s.take_home - coalesce(s.trim, s.trim_ground) - coalesce(s.fat_saved, s.own_fat_ground) AS cuts,
           s.bone, s.sinew, s.damage, s.packed,
           s.base - s.take_home - s.bone - s.sinew - coalesce(s.damage, 0.0) AS rest
         FROM animal_sum s WHERE ${WEIGHED_WHOLE} AND ${conditions})`,
  );
  const others = filtered<{ n: number }>(
    db,
    (conditions) =>
      `SELECT count(*) AS n FROM animal_sum s WHERE s.stage IN ('packing', 'ready', 'released') AND NOT coalesce(${WEIGHED_WHOLE}, 0) AND ${conditions}`,
  );
  const ground = filtered<GroundSums>(
    db,
    (conditions) =>
      `SELECT count(*) AS batches, total(mine) AS own, total(b.bought * mine / b.own) AS bought, total(b.out * mine / b.own) AS out
       FROM (SELECT g.batch_id, sum(g.grams) AS mine FROM animal_sum s JOIN batch_source_sum g ON g.animal_id = s.animal_id
         WHERE g.animal_id > 0 AND ${WEIGHED_WHOLE} AND ${conditions} GROUP BY g.batch_id) m
       JOIN batch_sum b ON b.batch_id = m.batch_id WHERE b.state = 'done' AND b.own > 0 AND b.out > 0`,
  );
  const income = db.prepare<[number, string], { minor: number; grams: number }>(
    `SELECT total(b.subtotal_minor) AS minor, total(s.take_home) AS grams
     FROM animal_sum s JOIN bill b ON b.animal_id = s.animal_id
     WHERE s.season = ? AND b.currency = ? AND s.take_home > 0 AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id)`,
  );
  return {
    /** `shrink`: the share of the base up to which a rest counts as drying and dripping. */
    sums: (filter: SumFilter, shrink: number) => sums.get(filter, { shrink }),
    /** Finished animals that were not weighed in every part. */
    others: (filter: SumFilter) => others.get(filter)?.n ?? 0,
    ground: (filter: SumFilter): GroundSums =>
      ground.get(filter) ?? { batches: 0, own: 0, bought: 0, out: 0 },
    /** What standing bills took before tax, and the take-home of the animals that they are for. */
    income: (season: number, currency: string) => income.get(season, currency) ?? { minor: 0, grams: 0 },
  };
}

import { filtered } from './filtered.ts';
import type { Db } from './open.ts';
import type { SumFilter } from './season-filter.ts';

/** So many animals that came, left the hook and were ready on the same days. */
export interface FlowRow {
  received_on: string;
  /** Moment (UTC) of the first part or package on the scale, at the Table or else at the grinder; null while there is none. */
  cut_at: string | null;
  /** Set when it became ready, and kept afterwards. */
  ready_on: string | null;
  disposed_on: string | null;
  stage: string;
  animals: number;
}

export interface IntakeRow {
  season: number;
  on: string;
  animals: number;
}

export interface WaitRow {
  species: string;
  days: number;
  animals: number;
}

/** Animals of one kind that wait to be cut, and what such an animal weighs in this season. */
export interface UncutRow {
  species: string;
  animals: number;
  weighed: number;
  /** Of those weighed. */
  grams: number;
  /** Mean of the season's weighed animals of the species; null without any. */
  usual: number | null;
}

/** What tested positive is not worked on any more. */
const WORKED_ON = `NOT EXISTS (SELECT 1 FROM hold h JOIN hold_end e ON e.hold_id = h.id
  WHERE h.animal_id = s.animal_id AND e.outcome = 'positive')`;

/** How a season's animals came, hung and left; every query under a season filter. */
export function seasonFlow(db: Db) {
  const days = filtered<FlowRow>(
    db,
    (conditions) => `SELECT s.received_on, coalesce(s.cut_at, (SELECT min(w.at) FROM weighing_now w
         WHERE w.animal_id = s.animal_id AND w.stage = 'grinder')) AS cut_at,
       s.ready_on, d.disposed_on, s.stage, count(*) AS animals
     FROM animal_sum s LEFT JOIN disposal d ON s.stage = 'disposed' AND d.animal_id = s.animal_id
     WHERE ${conditions} GROUP BY 1, 2, 3, 4, 5`,
  );
  const intake = db.prepare<[number, number], IntakeRow>(
    `SELECT season, received_on AS "on", count(*) AS animals FROM animal_sum
     WHERE season BETWEEN ? AND ? GROUP BY 1, 2`,
  );
  const waits = filtered<WaitRow>(
    db,
    (
      conditions,
    ) => `SELECT s.species, CAST(julianday(s.ready_on) - julianday(s.received_on) AS INTEGER) AS days,
       count(*) AS animals FROM animal_sum s
     WHERE ${conditions} AND s.stage IN ('ready', 'released') AND s.ready_on >= s.received_on GROUP BY 1, 2 ORDER BY 1, 2`,
  );
  const uncut = filtered<UncutRow>(
    db,
    (
      conditions,
    ) => `SELECT s.species, count(*) AS animals, count(s.base) AS weighed, coalesce(sum(s.base), 0.0) AS grams,
       (SELECT avg(u.base) FROM animal_sum u WHERE u.season = s.season AND u.species = s.species) AS usual
     FROM animal_sum s WHERE ${conditions} AND s.stage IN ('hanging', 'cutting') AND s.cut_at IS NULL AND ${WORKED_ON}
     GROUP BY s.species`,
  );
  const trim = filtered<{ grams: number }>(
    db,
    (conditions) => `SELECT coalesce(sum(s.trim - s.trim_ground), 0.0) AS grams FROM animal_sum s
     WHERE ${conditions} AND s.stage IN ('hanging', 'cutting', 'packing') AND s.trim > s.trim_ground AND ${WORKED_ON}`,
  );
  return {
    /** Days on which animals came, left the hook and were ready. */
    days: (filter: SumFilter) => days.all(filter),
    /** Intake by day of the seasons from one to another, both counted in. */
    intake: (from: number, to: number) => intake.all(from, to),
    /** Days from intake to ready, of the animals that are. */
    waits: (filter: SumFilter) => waits.all(filter),
    /** Animals that nothing was cut of yet. */
    uncut: (filter: SumFilter) => uncut.all(filter),
    /** Trim that was weighed and is not ground. */
    trimLeft: (filter: SumFilter) => trim.get(filter)?.grams ?? 0,
  };
}

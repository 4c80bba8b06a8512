import type { Db } from '../file/db.ts';

export interface IntakeRow {
  on: string;
  animals: number;
}

/** Data on a season's intake, hanging and grinding that the animals' sums do not contain. */
export function seasonFlow(db: Db) {
  const intake = db.prepare<[number], IntakeRow>(
    'SELECT received_on AS "on", count(*) AS animals FROM animal_sum WHERE season = ? GROUP BY 1',
  );
  const ground = db.prepare<[string], { id: number; at: string }>(
    `SELECT w.animal_id AS id, min(w.at) AS at FROM json_each(?) j CROSS JOIN weighing_now w ON w.animal_id = j.value AND w.stage = 'grinder'
     GROUP BY 1`,
  );
  const disposed = db.prepare<[string], { id: number; at: string }>(
    'SELECT d.animal_id AS id, d.disposed_on AS at FROM json_each(?) j CROSS JOIN disposal_now d ON d.animal_id = j.value',
  );
  const positive = db
    .prepare<[string], number>(
      'SELECT DISTINCT n.animal_id FROM json_each(?) j CROSS JOIN hold_now n ON n.animal_id = j.value WHERE n.positive',
    )
    .pluck();
  const usualBatch = db
    .prepare<[number], number | null>(
      "SELECT avg(own) FROM batch_sum WHERE season = ? AND state = 'done' AND own > 0",
    )
    .pluck();
  const byId = (rows: readonly { id: number; at: string }[]): ReadonlyMap<number, string> =>
    new Map(rows.map(({ id, at }) => [id, at]));
  return {
    /** A season's intake by day. */
    intake: (season: number) => intake.all(season),
    /** Moment (UTC) of each animal's first weight at the grinder, if any. */
    ground: (ids: readonly number[]) => byId(ground.all(JSON.stringify(ids))),
    /** Date of each animal's disposal, if any. */
    disposed: (ids: readonly number[]) => byId(disposed.all(JSON.stringify(ids))),
    /** Animals that tested positive: work on them has stopped. */
    positive: (ids: readonly number[]): ReadonlySet<number> => new Set(positive.all(JSON.stringify(ids))),
    /** Mean input of the season's finished batches, in grams; null without any. */
    usualBatch: (season: number) => usualBatch.get(season) ?? null,
  };
}

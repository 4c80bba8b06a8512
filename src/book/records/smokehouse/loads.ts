import type { Db } from '../../file/db.ts';
import { firstFree, MAX_IN_SEASON, seasonMark } from '../season-mark.ts';

export interface LoadRow {
  id: number;
  season: number;
  name: string;
  oven: string;
  at: string;
  by: string;
}

export interface LoadRecordRow {
  id: number;
  load_id: number;
  state: 'open' | 'closed';
  body: string;
  reason: string;
  at: string;
  by: string;
}

type HeatAnswer = 'meets-figures' | 'not-met' | 'not-proven';

export interface VerdictRow {
  id: number;
  load_id: number;
  cook: HeatAnswer;
  cooling: HeatAnswer;
  basis: string;
  body: string;
  at: string;
  by: string;
}

/** Loads of the smokehouse: the batches in them, what is written down of the cook, and verdicts. */
export function loadRecords(db: Db) {
  const get = db.prepare<[number], LoadRow>('SELECT id, season, name, oven, at, by FROM load WHERE id = ?');
  const newest = db.prepare<[number], LoadRow>(
    'SELECT id, season, name, oven, at, by FROM load ORDER BY id DESC LIMIT ?',
  );
  const open = db.prepare<[], LoadRow>(
    `SELECT l.id, l.season, l.name, l.oven, l.at, l.by FROM load l
     WHERE (SELECT r.state FROM load_record r WHERE r.load_id = l.id ORDER BY r.id DESC LIMIT 1) = 'open' ORDER BY l.id DESC`,
  );
  const nextNumber = db
    .prepare<[number], number>(
      `SELECT coalesce(max(number), 0) + 1 FROM load WHERE season = ? AND number < ${MAX_IN_SEASON}`,
    )
    .pluck();
  const named = db.prepare<[string], number>('SELECT id FROM load WHERE name = ?').pluck();
  const insert = db.prepare(
    'INSERT INTO load (season, number, name, oven, at, by) VALUES (@season, @number, @name, @oven, @at, @by)',
  );
  const ovens = db.prepare<[], string>("SELECT DISTINCT oven FROM load WHERE oven <> '' ORDER BY 1").pluck();
  const batches = db.prepare<[number], { id: number; made_id: number; at: string; by: string }>(
    'SELECT id, made_id, at, by FROM load_batch_now WHERE load_id = ? ORDER BY id',
  );
  const loadsOf = db.prepare<[number], LoadRow & { load_batch_id: number }>(
    `SELECT l.id, l.season, l.name, l.oven, l.at, l.by, b.id AS load_batch_id FROM load_batch_now b JOIN load l ON l.id = b.load_id
     WHERE b.made_id = ? ORDER BY b.id`,
  );
  const addBatch = db.prepare(
    'INSERT INTO load_batch (load_id, made_id, at, by) VALUES (@loadId, @madeId, @at, @by)',
  );
  const voidBatch = db.prepare(
    'INSERT INTO load_batch_void (load_batch_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  const record = db.prepare<[number], LoadRecordRow>(
    'SELECT * FROM load_record WHERE load_id = ? ORDER BY id DESC LIMIT 1',
  );
  const records = db.prepare<[number], LoadRecordRow>(
    'SELECT * FROM load_record WHERE load_id = ? ORDER BY id',
  );
  const addRecord = db.prepare(
    'INSERT INTO load_record (load_id, state, body, reason, at, by) VALUES (@loadId, @state, @body, @reason, @at, @by)',
  );
  const verdict = db.prepare<[number], VerdictRow>(
    'SELECT * FROM load_verdict WHERE load_id = ? ORDER BY id DESC LIMIT 1',
  );
  const verdicts = db.prepare<[number], VerdictRow>(
    'SELECT * FROM load_verdict WHERE load_id = ? ORDER BY id',
  );
  const addVerdict = db.prepare(
    `INSERT INTO load_verdict (load_id, cook, cooling, basis, body, at, by)
     VALUES (@loadId, @cook, @cooling, @basis, @body, @at, @by)`,
  );
  return {
    get: (id: number) => get.get(id),
    /** Newest first. */
    newest: (limit: number) => newest.all(limit),
    /** Those that are not closed, newest first. */
    open: () => open.all(),
    /** Names of smokehouses that were used. */
    ovens: () => ovens.all(),
    add(load: { season: number; oven: string; at: string; by: string }): { id: number; name: string } {
      const nameOf = (n: number): string => `L${seasonMark(load.season)}-${String(n).padStart(3, '0')}`;
      const number = firstFree(nextNumber.get(load.season) ?? 1, (n) => named.get(nameOf(n)) !== undefined);
      const name = nameOf(number);
      return { id: Number(insert.run({ ...load, number, name }).lastInsertRowid), name };
    },
    batches: (loadId: number) => batches.all(loadId),
    /** The loads that a made batch was in. */
    loadsOf: (madeId: number) => loadsOf.all(madeId),
    addBatch: (row: { loadId: number; madeId: number; at: string; by: string }): number =>
      Number(addBatch.run(row).lastInsertRowid),
    voidBatch: (id: number, reason: string, at: string, by: string): void =>
      void voidBatch.run(id, reason, at, by),
    /** The record that counts. */
    record: (loadId: number) => record.get(loadId),
    records: (loadId: number) => records.all(loadId),
    addRecord: (row: {
      loadId: number;
      state: 'open' | 'closed';
      body: string;
      reason: string;
      at: string;
      by: string;
    }): number => Number(addRecord.run(row).lastInsertRowid),
    verdict: (loadId: number) => verdict.get(loadId),
    verdicts: (loadId: number) => verdicts.all(loadId),
    addVerdict: (row: {
      loadId: number;
      cook: HeatAnswer;
      cooling: HeatAnswer;
      basis: string;
      body: string;
      at: string;
      by: string;
    }): number => Number(addVerdict.run(row).lastInsertRowid),
  };
}

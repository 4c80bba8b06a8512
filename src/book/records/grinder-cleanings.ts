import type { Db } from '../file/db.ts';
import { eachRow } from '../file/each-row.ts';
import { timesOf, type TimesRow } from './results/traces.ts';

export interface CleaningRow {
  id: number;
  batch_id: number | null;
  how: string;
  /** Time of the cleaning. */
  at: string;
  by: string;
  /** Time of entry: later than `at` if it was entered afterwards. */
  entered_at: string;
}

interface BatchAtWork extends TimesRow {
  name: string;
}

/** Cleanings of the grinder, and when batches went through it. */
export function grinderCleaningRecords(db: Db) {
  const add = db.prepare(
    'INSERT INTO grinder_cleaning (batch_id, how, at, by, cleaned_at) VALUES (@batchId, @how, @at, @by, @cleanedAt)',
  );
  const addVoid = db.prepare(
    'INSERT INTO grinder_cleaning_void (cleaning_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  const get = db.prepare<[number], { id: number; voided: number }>(
    `SELECT c.id, EXISTS (SELECT 1 FROM grinder_cleaning_void v WHERE v.cleaning_id = c.id) AS voided
     FROM grinder_cleaning c WHERE c.id = ?`,
  );
  const newest = db.prepare<[number], CleaningRow>(
    'SELECT * FROM grinder_cleaning_now ORDER BY at DESC, id DESC LIMIT ?',
  );
  const since = db.prepare<[string], CleaningRow & { batch: number | null }>(
    'SELECT *, batch_id AS batch FROM grinder_cleaning_now WHERE at >= ? ORDER BY at, id',
  );
  const times = db.prepare<{ batchId: number }, TimesRow>(`SELECT * FROM ${timesOf('b.id = @batchId')}`);
  const atWork = db.prepare<{ season: number }, BatchAtWork>(
    `SELECT t.*, b.name FROM ${timesOf('b.season = @season')} t JOIN batch b ON b.id = t.id ORDER BY t.id`,
  );
  const heldIn = db.prepare<[number], { id: number; ticket: string; positive: number }>(
    `SELECT a.id, a.ticket, max(n.positive) AS positive FROM batch_animal m JOIN hold_now n ON n.animal_id = m.animal_id
     JOIN animal a ON a.id = m.animal_id
     WHERE m.batch_id = ? AND EXISTS (SELECT 1 FROM weighing_now w
       WHERE w.batch_id = m.batch_id AND w.stage = 'grinder' AND w.animal_id = m.animal_id)
     GROUP BY a.id ORDER BY a.id`,
  );
  const withHeld = db.prepare<[number], { id: number; name: string }>(
    `SELECT b.id, b.name FROM batch b
     WHERE b.season = ? AND EXISTS (SELECT 1 FROM batch_animal m JOIN hold_now n ON n.animal_id = m.animal_id
       WHERE m.batch_id = b.id AND EXISTS (SELECT 1 FROM weighing_now w
         WHERE w.batch_id = b.id AND w.stage = 'grinder' AND w.animal_id = n.animal_id))
     ORDER BY b.id`,
  );
  return {
    /** @param row `cleanedAt`: time of the cleaning if it is earlier than the entry */
    add: (row: {
      batchId: number | null;
      how: string;
      at: string;
      by: string;
      cleanedAt: string | null;
    }): number => Number(add.run(row).lastInsertRowid),
    void: (id: number, reason: string, at: string, by: string): void => void addVoid.run(id, reason, at, by),
    get: (id: number) => get.get(id),
    /** Valid ones, newest first. */
    newest: (limit: number) => newest.all(limit),
    /** Cleanings from this time on, in order, one row at a time. */
    since: (at: string) => eachRow(since, at),
    /** When a batch was in the grinder; undefined without weights. */
    times: (batchId: number) => times.get({ batchId }),
    /** Batches of a season that went through the grinder. */
    atWork: (season: number) => atWork.all({ season }),
    /** Animals on hold in a batch. */
    heldIn: (batchId: number) => heldIn.all(batchId),
    /** Batches of a season with an animal on hold. */
    withHeld: (season: number) => withHeld.all(season),
  };
}

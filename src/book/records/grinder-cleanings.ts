import type { Db } from '../file/db.ts';
import { WEIGHED_THEN } from './results/traces.ts';

export interface CleaningRow {
  id: number;
  batch_id: number | null;
  how: string;
  /** When it was done. */
  at: string;
  by: string;
  /** When it was written down: later than `at` where somebody entered it afterwards. */
  entered_at: string;
}

/** From the first weight of a batch at the grinder to its last record; moments are UTC. */
export interface BatchSpan {
  first: string;
  /** Last weight in, or pass through the plate. */
  ground: string;
  /** The same, or the last package if later. */
  last: string;
}

interface BatchAtWork extends Pick<BatchSpan, 'first' | 'last'> {
  id: number;
  name: string;
}

/** Cleanings of the grinder, and the batches that went through it. */
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
  const firstFrom = db.prepare<[string], CleaningRow>(
    'SELECT * FROM grinder_cleaning_now WHERE at >= ? ORDER BY at, id LIMIT 1',
  );
  const span = db.prepare<{ batchId: number }, BatchSpan | { first: null }>(
    `SELECT min(at) FILTER (WHERE at_grinder) AS first, max(at) FILTER (WHERE at_grinder) AS ground, max(at) AS last FROM (
       SELECT at, stage = 'grinder' AS at_grinder FROM ${WEIGHED_THEN} WHERE batch_id = @batchId AND stage IN ('grinder', 'packed')
       UNION ALL SELECT at, 1 FROM grind_pass WHERE batch_id = @batchId)`,
  );
  // A pass need not be recorded, so a batch was at the grinder from its first weight in to its last package.
  const atWork = db.prepare<{ season: number; from: string; until: string }, BatchAtWork>(
    `SELECT * FROM (SELECT b.id, b.name,
       (SELECT min(w.at) FROM ${WEIGHED_THEN} w WHERE w.batch_id = b.id AND w.stage = 'grinder') AS first,
       max(coalesce((SELECT max(w.at) FROM ${WEIGHED_THEN} w WHERE w.batch_id = b.id AND w.stage IN ('grinder', 'packed')), ''),
         coalesce((SELECT max(p.at) FROM grind_pass p WHERE p.batch_id = b.id), '')) AS last
       FROM batch b WHERE b.season = @season AND b.at < @until)
     WHERE first < @until AND last > @from ORDER BY id`,
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
    /** @param row `cleanedAt`: when it was done, where that was before it is written down */
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
    /** The first cleaning at or after this moment. */
    firstFrom: (at: string) => firstFrom.get(at),
    /** When a batch was at the grinder; undefined without weights. */
    span(batchId: number): BatchSpan | undefined {
      const found = span.get({ batchId });
      return found && found.first !== null ? found : undefined;
    },
    /** Batches of a season that were at the grinder between two moments. */
    atWork: (season: number, from: string, until: string) => atWork.all({ season, from, until }),
    /** Animals on hold whose meat is in a batch. */
    heldIn: (batchId: number) => heldIn.all(batchId),
    /** Batches of a season with meat of an animal on hold. */
    withHeld: (season: number) => withHeld.all(season),
  };
}

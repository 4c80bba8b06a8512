import type { Db } from '../../file/db.ts';

export type NoticeStep = 'first' | 'second' | 'last';
export type NoticeHow = 'letter' | 'call' | 'message';

export interface NoticeRow {
  id: number;
  animal_id: number;
  step: NoticeStep;
  how: NoticeHow;
  sent_on: string;
  note: string;
  at: string;
  by: string;
}

interface Said {
  animalId: number;
  at: string;
  by: string;
}

/** Statements that meat goes back unprocessed, and pickup notices: append-only, voided by another row. */
export function leavingRecords(db: Db) {
  const addUnprocessed = db.prepare(
    'INSERT INTO unprocessed (animal_id, reason, at, by) VALUES (@animalId, @reason, @at, @by)',
  );
  const unprocessed = db.prepare<[number], { id: number; reason: string; at: string; by: string }>(
    'SELECT id, reason, at, by FROM unprocessed_now WHERE animal_id = ? ORDER BY id DESC LIMIT 1',
  );
  const unprocessedIn = db
    .prepare<[number], number>(
      'SELECT DISTINCT u.animal_id FROM unprocessed_now u JOIN animal a ON a.id = u.animal_id WHERE a.season = ?',
    )
    .pluck();
  const voidUnprocessed = db.prepare(
    'INSERT INTO unprocessed_void (unprocessed_id, reason, at, by) VALUES (@id, @reason, @at, @by)',
  );
  const addNotice = db.prepare(
    'INSERT INTO pickup_notice (animal_id, step, how, sent_on, note, at, by) VALUES (@animalId, @step, @how, @on, @note, @at, @by)',
  );
  const notices = db.prepare<[number], NoticeRow>(
    'SELECT * FROM pickup_notice_now WHERE animal_id = ? ORDER BY id',
  );
  const notice = db.prepare<[number], NoticeRow>('SELECT * FROM pickup_notice_now WHERE id = ?');
  const voidNotice = db.prepare(
    'INSERT INTO pickup_notice_void (notice_id, reason, at, by) VALUES (@id, @reason, @at, @by)',
  );
  return {
    addUnprocessed: (row: Said & { reason: string }): void => void addUnprocessed.run(row),
    /** The valid statement that it goes back unprocessed. */
    unprocessed: (animalId: number) => unprocessed.get(animalId),
    /** Ids of the season's animals with such a statement. */
    unprocessedIn: (season: number): ReadonlySet<number> => new Set(unprocessedIn.all(season)),
    voidUnprocessed: (row: { id: number; reason: string; at: string; by: string }): void =>
      void voidUnprocessed.run(row),
    addNotice: (row: Said & { step: NoticeStep; how: NoticeHow; on: string; note: string }): number =>
      Number(addNotice.run(row).lastInsertRowid),
    /** Valid notices, oldest first. */
    notices: (animalId: number) => notices.all(animalId),
    /** A valid notice by id. */
    notice: (id: number) => notice.get(id),
    voidNotice: (row: { id: number; reason: string; at: string; by: string }): void =>
      void voidNotice.run(row),
  };
}

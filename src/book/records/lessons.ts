import type { Db } from '../file/db.ts';

/** What another shop taught. */
export interface NewLesson {
  /** The mark of the shop that gave it. */
  source: string;
  label: string;
  via: 'file' | 'ledger';
  madeOn: string;
  animals: number;
  batches: number;
  /** JSON. */
  body: string;
  at: string;
  by: string;
}

export interface LessonRow extends NewLesson {
  id: number;
  used: 0 | 1;
}

/** What this shop gave last. */
export interface GivenRow {
  source: string;
  body: string;
  at: string;
}

const COLUMNS = 'id, source, label, via, made_on AS madeOn, animals, batches, body, at, by, used';

/** What shops teach each other: what this one gave, and what it took in. */
export function lessonRecords(db: Db) {
  const give = db.prepare(
    'INSERT INTO lesson_given (source, body, at, by) VALUES (@source, @body, @at, @by)',
  );
  const given = db.prepare<[], GivenRow>(
    'SELECT source, body, at FROM lesson_given ORDER BY id DESC LIMIT 1',
  );
  const take = db.prepare(
    `INSERT INTO lesson (source, label, via, made_on, animals, batches, body, at, by)
     VALUES (@source, @label, @via, @madeOn, @animals, @batches, @body, @at, @by)`,
  );
  const all = db.prepare<[number], LessonRow>(
    `SELECT ${COLUMNS} FROM lesson_now ORDER BY used DESC, id DESC LIMIT ?`,
  );
  const used = db.prepare<[], LessonRow>(`SELECT ${COLUMNS} FROM lesson_now WHERE used = 1 ORDER BY id`);
  const latest = db.prepare<[string], LessonRow>(
    `SELECT ${COLUMNS} FROM lesson_now WHERE source = ? ORDER BY id DESC LIMIT 1`,
  );
  const get = db.prepare<[number], LessonRow>(`SELECT ${COLUMNS} FROM lesson_now WHERE id = ?`);
  const use = db.prepare('INSERT INTO lesson_use (lesson_id, used, at, by) VALUES (@id, @used, @at, @by)');
  return {
    give: (row: GivenRow & { by: string }): void => void give.run(row),
    given: () => given.get(),
    take: (row: NewLesson): number => Number(take.run(row).lastInsertRowid),
    /** Used ones first, newest first. */
    newest: (most: number) => all.all(most),
    used: () => used.all(),
    /** The newest of a shop, used or not. */
    latestOf: (source: string) => latest.get(source),
    get: (id: number) => get.get(id),
    use: (id: number, isUsed: boolean, stamp: { at: string; by: string }): void =>
      void use.run({ id, used: isUsed ? 1 : 0, ...stamp }),
  };
}

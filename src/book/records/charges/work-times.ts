import type { Db } from '../../file/db.ts';

export interface WorkTimeRecord {
  id: number;
  animal_id: number;
  line_code: string;
  minutes: number;
  at: string;
  by: string;
  void_reason: string | null;
  void_at: string | null;
  void_by: string | null;
}

/** Append-only hours of work on one animal, by price line; voided by another row. */
export function workTimeRecords(db: Db) {
  const insert = db.prepare(
    'INSERT INTO work_time (animal_id, line_code, minutes, at, by) VALUES (@animalId, @lineCode, @minutes, @at, @by)',
  );
  const columns = 't.*, v.reason AS void_reason, v.at AS void_at, v.by AS void_by';
  const from = 'FROM work_time t LEFT JOIN work_time_void v ON v.work_time_id = t.id';
  const get = db.prepare<[number], WorkTimeRecord>(`SELECT ${columns} ${from} WHERE t.id = ?`);
  const ofAnimal = db.prepare<[number], WorkTimeRecord>(
    `SELECT ${columns} ${from} WHERE t.animal_id = ? ORDER BY t.id`,
  );
  const minutes = db.prepare<[number], { line_code: string; minutes: number }>(
    'SELECT line_code, sum(minutes) AS minutes FROM work_time_now WHERE animal_id = ? GROUP BY line_code ORDER BY min(id)',
  );
  const voidOne = db.prepare('INSERT INTO work_time_void (work_time_id, reason, at, by) VALUES (?, ?, ?, ?)');
  return {
    add: (time: { animalId: number; lineCode: string; minutes: number; at: string; by: string }): number =>
      Number(insert.run(time).lastInsertRowid),
    get: (id: number) => get.get(id),
    /** Oldest first, including voided ones. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    /** Valid minutes by price line. */
    minutes: (animalId: number) => minutes.all(animalId),
    void: (id: number, reason: string, at: string, by: string): void => void voidOne.run(id, reason, at, by),
  };
}

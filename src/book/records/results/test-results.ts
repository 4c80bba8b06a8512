import type { Db } from '../../file/db.ts';
import type { TestResult } from '../../../trade/animal.ts';

interface TestResultRow {
  id: number;
  hold_id: number;
  result: TestResult;
  sample: string;
  lab: string;
  reported_on: string;
  note: string;
  reason: string;
  at: string;
  by: string;
}

/** A hold, active or not, with the newest result of its sample. */
export interface HoldStanding {
  id: number;
  animal_id: number;
  sample: string;
  /** The valid result; `none` if it was withdrawn, null if there never was one. */
  result: TestResultRow['result'] | null;
  /** 1 if the hold was ended without a result. */
  lifted: number;
}

/** Laboratory results: append-only; a correction is another row. */
export function testResultRecords(db: Db) {
  const ofAnimal = db.prepare<[number], TestResultRow>(
    'SELECT r.* FROM hold h JOIN hold_result r ON r.hold_id = h.id WHERE h.animal_id = ? ORDER BY r.id DESC',
  );
  // Before results had rows of their own, they were stored in hold_end.
  const standing = db.prepare<[number], HoldStanding>(
    `SELECT h.id, h.animal_id, h.sample,
       coalesce((SELECT r.result FROM hold_result r WHERE r.hold_id = h.id ORDER BY r.id DESC LIMIT 1),
         CASE e.outcome WHEN 'positive' THEN 'positive' WHEN 'cleared' THEN 'not detected' END) AS result,
       e.outcome IS 'withdrawn' AS lifted
     FROM hold h LEFT JOIN hold_end e ON e.id = (SELECT max(n.id) FROM hold_end n WHERE n.hold_id = h.id) WHERE h.id = ?`,
  );
  const insert = db.prepare(
    `INSERT INTO hold_result (hold_id, result, sample, lab, reported_on, note, reason, at, by)
     VALUES (@hold_id, @result, @sample, @lab, @reported_on, @note, @reason, @at, @by)`,
  );
  return {
    /** Newest first. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    standing: (holdId: number) => standing.get(holdId),
    add: (row: Omit<TestResultRow, 'id'>): number => Number(insert.run(row).lastInsertRowid),
  };
}

import type { Db } from '../file/db.ts';
import type { NonePart } from '../../trade/weighing.ts';

interface PartNoneRow {
  id: number;
  animal_id: number;
  part: NonePart;
  at: string;
  by: string;
}

/** Statements that an animal has none of a part: append-only, voided by another row. */
export function partNoneRecords(db: Db) {
  const insert = db.prepare<[number, NonePart, string, string]>(
    'INSERT INTO part_none (animal_id, part, at, by) VALUES (?, ?, ?, ?)',
  );
  const addVoid = db.prepare<[number, string, string, string]>(
    'INSERT INTO part_none_void (none_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  const get = db.prepare<[number], PartNoneRow & { void_by: string | null; void_reason: string | null }>(
    `SELECT n.*, v.by AS void_by, v.reason AS void_reason
     FROM part_none n LEFT JOIN part_none_void v ON v.none_id = n.id WHERE n.id = ?`,
  );
  const ofAnimal = db.prepare<[number], PartNoneRow>(
    'SELECT * FROM part_none_now WHERE animal_id = ? ORDER BY id',
  );
  return {
    add: (animalId: number, part: NonePart, at: string, by: string): number =>
      Number(insert.run(animalId, part, at, by).lastInsertRowid),
    void: (id: number, reason: string, at: string, by: string): void => void addVoid.run(id, reason, at, by),
    get: (id: number) => get.get(id),
    /** Valid ones, oldest first, including those that a later weight overrides. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
  };
}

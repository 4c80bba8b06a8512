import type { Db } from '../file/db.ts';

interface CallNoteRecord {
  id: number;
  animal_id: number;
  text: string;
  at: string;
  by: string;
}

/** Append-only notes of calls about a ready animal: who was reached, and the message. */
export function callNoteRecords(db: Db) {
  const insert = db.prepare(
    'INSERT INTO call_note (animal_id, text, at, by) VALUES (@animalId, @text, @at, @by)',
  );
  const ofAnimal = db.prepare<[number], CallNoteRecord>(
    'SELECT * FROM call_note WHERE animal_id = ? ORDER BY id DESC',
  );
  return {
    add: (note: { animalId: number; text: string; at: string; by: string }): number =>
      Number(insert.run(note).lastInsertRowid),
    /** Newest first. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
  };
}

import type { Db } from '../../file/db.ts';
import type { AnimalStage } from '../../../trade/animal.ts';

interface CancelRow {
  id: number;
  /** Stage of the animal before. */
  stage_before: AnimalStage;
  reason: string;
  at: string;
  by: string;
}

interface Said {
  reason: string;
  at: string;
  by: string;
}

/** Cancelations of mistaken intakes: append-only, voided by another row. */
export function cancelRecords(db: Db) {
  const insert = db.prepare<Said & { animalId: number; stageBefore: AnimalStage }>(
    `INSERT INTO intake_cancel (animal_id, stage_before, reason, at, by)
     VALUES (@animalId, @stageBefore, @reason, @at, @by)`,
  );
  const addVoid = db.prepare<Said & { id: number }>(
    'INSERT INTO intake_cancel_void (cancel_id, reason, at, by) VALUES (@id, @reason, @at, @by)',
  );
  const ofAnimal = db.prepare<[number], CancelRow>('SELECT * FROM intake_cancel_now WHERE animal_id = ?');
  return {
    add: (row: Said & { animalId: number; stageBefore: AnimalStage }): void => void insert.run(row),
    void: (row: Said & { id: number }): void => void addVoid.run(row),
    /** The valid one. */
    ofAnimal: (animalId: number) => ofAnimal.get(animalId),
  };
}

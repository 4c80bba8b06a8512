import type { Db } from '../../file/db.ts';
import type { AffectedDeed } from '../../../trade/animal.ts';

interface AffectedNoteRow {
  id: number;
  animal_id: number;
  source_id: number;
  what: AffectedDeed;
  note: string;
  at: string;
  by: string;
}

/** Actions for animals affected by a positive result: append-only; a mistaken note is voided. */
export function affectedNoteRecords(db: Db) {
  const insert = db.prepare(
    'INSERT INTO affected_note (animal_id, source_id, what, note, at, by) VALUES (@animalId, @sourceId, @what, @note, @at, @by)',
  );
  const insertVoid = db.prepare(
    'INSERT INTO affected_note_void (note_id, reason, at, by) VALUES (@noteId, @reason, @at, @by)',
  );
  const get = db.prepare<[number], AffectedNoteRow & { voided: number }>(
    `SELECT n.*, EXISTS (SELECT 1 FROM affected_note_void v WHERE v.note_id = n.id) AS voided
     FROM affected_note n WHERE n.id = ?`,
  );
  const ofSource = db.prepare<[number], AffectedNoteRow>(
    'SELECT * FROM affected_note_now WHERE source_id = ? ORDER BY id',
  );
  return {
    add: (
      note: Omit<AffectedNoteRow, 'id' | 'animal_id' | 'source_id'> & { animalId: number; sourceId: number },
    ): number => Number(insert.run(note).lastInsertRowid),
    void: (row: { noteId: number; reason: string; at: string; by: string }): void => void insertVoid.run(row),
    get: (id: number) => get.get(id),
    /** Valid notes for one positive animal, oldest first. */
    ofSource: (sourceId: number) => ofSource.all(sourceId),
  };
}

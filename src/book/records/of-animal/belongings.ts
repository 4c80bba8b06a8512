import type { Db } from '../../file/db.ts';
import type { BelongingWent } from '../../../trade/belongings.ts';

export interface BelongingRecord {
  id: number;
  animal_id: number;
  kind: string;
  tag: string;
  place: string;
  /** 1 if kept as legal evidence of sex. */
  evidence: number;
  note: string;
  at: string;
  by: string;
  void_by: string | null;
  void_reason: string | null;
  /** The valid end; null while it is in the shop. */
  end_id: number | null;
  went: BelongingWent | null;
  went_to: string | null;
  receipt: string | null;
  ended_on: string | null;
  end_note: string | null;
  end_by: string | null;
  /** Time of entry of the end. */
  end_at: string | null;
}

interface NewBelonging {
  animalId: number;
  kind: string;
  tag: string;
  place: string;
  evidence: boolean;
  note: string;
  at: string;
  by: string;
}

interface NewEnd {
  belongingId: number;
  went: BelongingWent;
  name: string;
  receipt: string;
  on: string;
  note: string;
  at: string;
  by: string;
}

/**
 * Belongings that came with an animal (antlers, capes, hearts …): append-only, with ends and voids as rows of their
 * own.
 */
export function belongingRecords(db: Db) {
  const insert = db.prepare(
    `INSERT INTO belonging (animal_id, kind, tag, place, evidence, note, at, by)
     VALUES (@animalId, @kind, @tag, @place, @evidence, @note, @at, @by)`,
  );
  const insertEnd = db.prepare(
    `INSERT INTO belonging_end (belonging_id, went, name, receipt, ended_on, note, at, by)
     VALUES (@belongingId, @went, @name, @receipt, @on, @note, @at, @by)`,
  );
  const addVoid = db.prepare('INSERT INTO belonging_void (belonging_id, reason, at, by) VALUES (?, ?, ?, ?)');
  const addEndVoid = db.prepare(
    'INSERT INTO belonging_end_void (end_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  const columns = `b.*, v.by AS void_by, v.reason AS void_reason, e.id AS end_id, e.went, e.name AS went_to, e.receipt,
    e.ended_on, e.note AS end_note, e.by AS end_by, e.at AS end_at`;
  const from = `FROM belonging b LEFT JOIN belonging_void v ON v.belonging_id = b.id
    LEFT JOIN belonging_end_now e ON e.belonging_id = b.id`;
  const get = db.prepare<[number], BelongingRecord>(`SELECT ${columns} ${from} WHERE b.id = ?`);
  const ofAnimal = db.prepare<[number], BelongingRecord>(
    `SELECT ${columns} ${from} WHERE b.animal_id = ? AND v.belonging_id IS NULL ORDER BY b.id`,
  );
  return {
    add: (row: NewBelonging): number =>
      Number(insert.run({ ...row, evidence: Number(row.evidence) }).lastInsertRowid),
    end: (row: NewEnd): number => Number(insertEnd.run(row).lastInsertRowid),
    void: (id: number, reason: string, at: string, by: string): void => void addVoid.run(id, reason, at, by),
    voidEnd: (endId: number, reason: string, at: string, by: string): void =>
      void addEndVoid.run(endId, reason, at, by),
    get: (id: number) => get.get(id),
    /** Valid ones, in order of entry. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
  };
}

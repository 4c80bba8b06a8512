import type { Db } from '../../file/db.ts';

/** A printed slip, and what its code finds. */
export interface SlipNow {
  id: number;
  code: string;
  /** The open draft that was typed for it; null: none, or its details were removed. */
  draftId: number | null;
  /** The animal that came with it. */
  animalId: number | null;
}

interface Stamp {
  at: string;
  by: string;
}

/** Blank slips for night drop-off. */
export function slipRecords(db: Db) {
  const add = db.prepare<{ code: string } & Stamp>(
    'INSERT INTO slip (code, at, by) VALUES (@code, @at, @by) ON CONFLICT (code) DO NOTHING',
  );
  const find = db.prepare<[string], SlipNow>(
    `SELECT s.id, s.code, a.animal_id AS animalId,
       (SELECT max(d.id) FROM draft_now d
        WHERE d.slip_id = s.id AND d.state = 'open' AND d.details_removed_at IS NULL) AS draftId
     FROM slip s LEFT JOIN slip_animal a ON a.slip_id = s.id WHERE s.code = ?`,
  );
  const use = db.prepare<{ id: number; animalId: number } & Stamp>(
    'INSERT INTO slip_animal (slip_id, animal_id, at, by) VALUES (@id, @animalId, @at, @by)',
  );
  return {
    /** @returns false if there is a slip of this code */
    add: (code: string, stamp: Stamp): boolean => add.run({ code, ...stamp }).changes === 1,
    find: (code: string) => find.get(code),
    use: (id: number, animalId: number, stamp: Stamp): void => void use.run({ id, animalId, ...stamp }),
  };
}

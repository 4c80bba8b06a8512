import type { PhotoKind } from '../../../trade/photo.ts';
import type { Db } from '../../file/db.ts';

export interface NewPhotograph {
  animalId: number;
  kind: PhotoKind;
  /** SHA-256 of the file. */
  digest: string;
  bytes: number;
  width: number;
  height: number;
  /** Null: at the desk itself. */
  stationId: number | null;
  takenAt: string;
  at: string;
  by: string;
}

export interface PhotographRecord extends NewPhotograph {
  id: number;
  /** The name of the station now; null: at the desk itself. */
  station: string | null;
  voidBy: string | null;
  voidReason: string | null;
  /** 1 once its file was deleted with the details of its hunter. */
  removed: number;
}

const COLUMNS = `p.id, p.animal_id AS animalId, p.kind, p.digest, p.bytes, p.width, p.height, p.station_id AS stationId,
  p.taken_at AS takenAt, p.at, p.by, s.name AS station, v.by AS voidBy, v.reason AS voidReason,
  r.photograph_id IS NOT NULL AS removed`;
const FROM = `FROM photograph p LEFT JOIN station_now s ON s.id = p.station_id
  LEFT JOIN photograph_void v ON v.photograph_id = p.id LEFT JOIN photograph_removal r ON r.photograph_id = p.id`;
const STANDS = 'v.photograph_id IS NULL AND r.photograph_id IS NULL';

/** Photographs of animals: written once, with voids and removals as rows of their own. */
export function photographRecords(db: Db) {
  const add = db.prepare(
    `INSERT INTO photograph (animal_id, kind, digest, bytes, width, height, station_id, taken_at, at, by)
     VALUES (@animalId, @kind, @digest, @bytes, @width, @height, @stationId, @takenAt, @at, @by)`,
  );
  const addVoid = db.prepare(
    'INSERT INTO photograph_void (photograph_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  const get = db.prepare<[number], PhotographRecord>(`SELECT ${COLUMNS} ${FROM} WHERE p.id = ?`);
  const ofAnimal = db.prepare<[number], PhotographRecord>(
    `SELECT ${COLUMNS} ${FROM} WHERE p.animal_id = ? AND ${STANDS} ORDER BY p.id`,
  );
  const ofDigest = db.prepare<[string], PhotographRecord>(
    `SELECT ${COLUMNS} ${FROM} WHERE p.digest = ? AND ${STANDS} ORDER BY p.id`,
  );
  const kept = db
    .prepare<[], string>(
      `SELECT DISTINCT p.digest FROM photograph p
       WHERE NOT EXISTS (SELECT 1 FROM photograph_removal r WHERE r.photograph_id = p.id)`,
    )
    .pluck();
  const isKept = db
    .prepare<[string], number>(
      `SELECT 1 FROM photograph p WHERE p.digest = ?
       AND NOT EXISTS (SELECT 1 FROM photograph_removal r WHERE r.photograph_id = p.id)`,
    )
    .pluck();
  const removed = db
    .prepare<[], string>(
      `SELECT DISTINCT p.digest FROM photograph p JOIN photograph_removal r ON r.photograph_id = p.id
       WHERE p.digest NOT IN (SELECT o.digest FROM photograph o
         WHERE NOT EXISTS (SELECT 1 FROM photograph_removal n WHERE n.photograph_id = o.id))`,
    )
    .pluck();
  const standing = db.prepare<[], { ticket: string; digest: string }>(
    `SELECT a.ticket, p.digest FROM photograph_now p JOIN animal a ON a.id = p.animal_id ORDER BY p.id`,
  );
  const any = db.prepare<[], number>('SELECT 1 FROM photograph LIMIT 1').pluck();
  // A picture that was added to another animal too shows the same hunter there.
  const removeOf = db.prepare<{ hunterId: number; at: string; by: string }>(
    `INSERT OR IGNORE INTO photograph_removal (photograph_id, at, by)
     SELECT o.id, @at, @by FROM photograph o WHERE o.digest IN
       (SELECT p.digest FROM photograph p JOIN animal a ON a.id = p.animal_id WHERE a.hunter_id = @hunterId)`,
  );
  return {
    add: (row: NewPhotograph): number => Number(add.run(row).lastInsertRowid),
    void: (id: number, reason: string, at: string, by: string): void => void addVoid.run(id, reason, at, by),
    get: (id: number) => get.get(id),
    /** Those that stand, in order of entry. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    /** Those that stand with this file. */
    ofDigest: (digest: string) => ofDigest.all(digest),
    /** Digests of all files that the book needs, of voided photographs too. */
    digests: () => kept.all(),
    needs: (digest: string): boolean => isKept.get(digest) !== undefined,
    /** Digests of files that are to be gone. */
    removedDigests: () => removed.all(),
    /** All that stand, with the ticket of each. */
    standing: () => standing.all(),
    any: (): boolean => any.get() !== undefined,
    /** Call inside the transaction that removes a hunter's details. */
    removeOfHunter: (hunterId: number, at: string, by: string): void =>
      void removeOf.run({ hunterId, at, by }),
  };
}

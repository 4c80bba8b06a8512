import type { Db } from './open.ts';

export interface OfficerRow {
  id: number;
  ticket: string;
  hunter: string;
  address: string;
  licence: string;
  tag: string;
  species: string;
  sex: 'male' | 'female' | 'unknown';
  kill_date: string | null;
  kill_area: string;
  received_on: string;
  stage: 'hanging' | 'cutting' | 'packing' | 'ready' | 'released' | 'disposed';
  origin: 'hunter' | 'farm';
  released_on: string | null;
  given_to: string | null;
  disposed_on: string | null;
  disposed_how: string | null;
}

export interface DisposalRow {
  what: string;
  how: string;
  reason: string;
  disposed_on: string;
  by: string;
}

/** What a wildlife officer asks to see, handing over and disposal. */
export function recordBook(db: Db) {
  const ofSeason = db.prepare<[number], OfficerRow>(
    `SELECT a.id, a.ticket, h.name AS hunter, h.address, a.licence, a.tag, a.species, a.sex, a.kill_date, a.kill_area, a.received_on,
       a.stage, a.origin, r.released_on, r.given_to, d.disposed_on, d.how AS disposed_how
     FROM animal a JOIN hunter h ON h.id = a.hunter_id LEFT JOIN release r ON r.animal_id = a.id
     LEFT JOIN disposal d ON d.animal_id = a.id
     WHERE a.season = ? ORDER BY a.number`,
  );
  const release = db.prepare(
    'INSERT INTO release (animal_id, given_to, released_on, unpaid_override, note, at, by) VALUES (@animalId, @to, @on, @unpaidBy, @note, @at, @by)',
  );
  const releaseOf = db.prepare<[number], { given_to: string; released_on: string; by: string }>(
    'SELECT given_to, released_on, by FROM release WHERE animal_id = ?',
  );
  const dispose = db.prepare(
    `INSERT INTO disposal (animal_id, what, how, reason, disposed_on, at, by)
     VALUES (@animalId, @what, @how, @reason, @on, @at, @by)`,
  );
  const disposalOf = db.prepare<[number], DisposalRow>(
    'SELECT what, how, reason, disposed_on, by FROM disposal WHERE animal_id = ?',
  );
  return {
    ofSeason: (season: number) => ofSeason.all(season),
    release: (row: {
      animalId: number;
      to: string;
      on: string;
      note: string;
      /** Initials of who let it go unpaid, or null. */
      unpaidBy: string | null;
      at: string;
      by: string;
    }): void => void release.run(row),
    dispose: (row: {
      animalId: number;
      what: string;
      how: string;
      reason: string;
      on: string;
      at: string;
      by: string;
    }): void => void dispose.run(row),
    disposalOf: (animalId: number) => disposalOf.get(animalId),
    releaseOf: (animalId: number) => releaseOf.get(animalId),
  };
}

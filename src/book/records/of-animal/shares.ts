import type { Db } from '../../file/db.ts';

export type ShareBasis = 'percent' | 'pounds' | 'pieces';

export interface ShareRow {
  basis: ShareBasis;
  hunter_id: number;
  hunter: string;
  phone: string;
  /** The part as typed. */
  typed: string;
  /** The part as a number; only its proportion to the others matters. */
  amount: number;
}

interface NewSplit {
  animalId: number;
  basis: ShareBasis;
  reason: string;
  at: string;
  by: string;
}

interface NewPickup {
  animalId: number;
  hunterId: number;
  to: string;
  packages: readonly object[];
  on: string;
  /** Initials of the person responsible for an unpaid pickup, or null. */
  unpaidBy: string | null;
  at: string;
  by: string;
}

export interface SharePickupRow {
  id: number;
  animal_id: number;
  hunter_id: number;
  given_to: string;
  /** JSON: the packages that were handed over. */
  packages: string;
  taken_on: string;
  at: string;
  by: string;
}

/** Who shares an animal, and who picked up a part. The newest split counts. */
export function shareRecords(db: Db) {
  const insertSplit = db.prepare<NewSplit>(
    'INSERT INTO share_split (animal_id, basis, reason, at, by) VALUES (@animalId, @basis, @reason, @at, @by)',
  );
  const insert = db.prepare<[number, number, number, string, number]>(
    'INSERT INTO share (split_id, position, hunter_id, typed, amount) VALUES (?, ?, ?, ?, ?)',
  );
  const ofAnimal = db.prepare<[number], ShareRow>(
    `SELECT s.basis, s.hunter_id, h.name AS hunter, h.phone, s.typed, s.amount FROM share_now s JOIN hunter h ON h.id = s.hunter_id
     WHERE s.animal_id = ? ORDER BY s.position`,
  );
  const insertPickup = db.prepare(
    `INSERT INTO share_pickup (animal_id, hunter_id, given_to, packages, taken_on, unpaid_override, at, by)
     VALUES (@animalId, @hunterId, @to, @packages, @on, @unpaidBy, @at, @by)`,
  );
  const pickups = db.prepare<[number], SharePickupRow>(
    'SELECT id, animal_id, hunter_id, given_to, packages, taken_on, at, by FROM share_pickup_now WHERE animal_id = ? ORDER BY id',
  );
  const voidPickup = db.prepare<[number, string, string, string]>(
    'INSERT INTO share_pickup_void (pickup_id, reason, at, by) VALUES (?, ?, ?, ?)',
  );
  return {
    /** Adds a split; the order of the shares is kept. */
    add(split: NewSplit, shares: readonly { hunterId: number; typed: string; amount: number }[]): void {
      const splitId = Number(insertSplit.run(split).lastInsertRowid);
      shares.forEach(({ hunterId, typed, amount }, position) =>
        insert.run(splitId, position, hunterId, typed, amount),
      );
    },
    /** In the order of the split; empty if the animal was never shared. */
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    addPickup: (row: NewPickup): number =>
      Number(insertPickup.run({ ...row, packages: JSON.stringify(row.packages) }).lastInsertRowid),
    /** Valid pickups of parts. */
    pickups: (animalId: number) => pickups.all(animalId),
    voidPickup: (id: number, reason: string, at: string, by: string): void =>
      void voidPickup.run(id, reason, at, by),
  };
}

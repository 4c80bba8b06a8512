import type { Db } from '../file/db.ts';
import { firstFree, MAX_IN_SEASON, seasonMark } from './season-mark.ts';

export interface BatchRecord {
  id: number;
  season: number;
  name: string;
  product: string;
  target_fat: number | null;
  plan: string;
  state: 'open' | 'done';
  started_on: string;
  at: string;
  by: string;
}

/** An animal on hold in a batch shared with another animal. */
interface HeldWith {
  batchId: number;
  batch: string;
  id: number;
  ticket: string;
  /** 1 if its test was positive. */
  positive: number;
}

/** Grind batches: animals, plan, passes, fat tests. */
export function batchRecords(db: Db) {
  const get = db.prepare<[number], BatchRecord>('SELECT * FROM batch WHERE id = ?');
  const open = db.prepare<[], BatchRecord>("SELECT * FROM batch WHERE state = 'open' ORDER BY id DESC");
  const recent = db.prepare<[number], BatchRecord>(
    "SELECT * FROM batch WHERE state = 'done' ORDER BY id DESC LIMIT ?",
  );
  const ofSeason = db.prepare<[number], BatchRecord>('SELECT * FROM batch WHERE season = ? ORDER BY id');
  const ofAnimal = db.prepare<[number], BatchRecord>(
    'SELECT b.* FROM batch b JOIN batch_animal m ON m.batch_id = b.id WHERE m.animal_id = ? ORDER BY b.id',
  );
  const nextNumber = db
    .prepare<[number], number>(
      `SELECT coalesce(max(number), 0) + 1 FROM batch WHERE season = ? AND number < ${MAX_IN_SEASON}`,
    )
    .pluck();
  const named = db.prepare<[string], number>('SELECT id FROM batch WHERE name = ?').pluck();
  const insert = db.prepare(
    `INSERT INTO batch (season, number, name, product, target_fat, plan, state, started_on, at, by)
     VALUES (@season, @number, @name, @product, @targetFat, @plan, 'open', @startedOn, @at, @by)`,
  );
  const addAnimal = db.prepare('INSERT INTO batch_animal (batch_id, animal_id) VALUES (?, ?)');
  const animals = db.prepare<[number], { id: number; ticket: string; hunter: string; species: string }>(
    `SELECT a.id, a.ticket, h.name AS hunter, a.species FROM batch_animal m JOIN animal a ON a.id = m.animal_id
     JOIN hunter h ON h.id = a.hunter_id WHERE m.batch_id = ? ORDER BY a.id`,
  );
  const pooledWith = db.prepare<[number], { batch: string; ticket: string; hunter: string; phone: string }>(
    `SELECT b.name AS batch, a.ticket, h.name AS hunter, h.phone FROM batch_animal mine
     JOIN batch b ON b.id = mine.batch_id JOIN batch_animal other ON other.batch_id = b.id AND other.animal_id <> mine.animal_id
     JOIN animal a ON a.id = other.animal_id JOIN hunter h ON h.id = a.hunter_id
     WHERE mine.animal_id = ? ORDER BY b.id, a.id`,
  );
  const heldWith = db.prepare<[number], HeldWith>(
    `SELECT b.id AS batchId, b.name AS batch, a.id, a.ticket, max(n.positive) AS positive FROM batch_animal mine
     JOIN batch_animal other ON other.batch_id = mine.batch_id AND other.animal_id <> mine.animal_id
     JOIN hold_now n ON n.animal_id = other.animal_id
     JOIN batch b ON b.id = mine.batch_id JOIN animal a ON a.id = other.animal_id
     WHERE mine.animal_id = ?
       AND EXISTS (SELECT 1 FROM weighing_now w WHERE w.batch_id = b.id AND w.stage = 'grinder' AND w.animal_id = mine.animal_id)
       AND EXISTS (SELECT 1 FROM weighing_now w WHERE w.batch_id = b.id AND w.stage = 'grinder' AND w.animal_id = a.id)
     GROUP BY b.id, a.id ORDER BY positive DESC, b.id, a.id`,
  );
  const setState = db.prepare<['open' | 'done', number]>('UPDATE batch SET state = ? WHERE id = ?');
  const addPass = db.prepare(
    'INSERT INTO grind_pass (batch_id, pass, plate, temp_typed, temp_tenths_c, at, by) VALUES (@batchId, @pass, @plate, @typed, @tenthsC, @at, @by)',
  );
  const passes = db.prepare<
    [number],
    { pass: number; plate: string; temp_tenths_c: number | null; at: string; by: string }
  >('SELECT pass, plate, temp_tenths_c, at, by FROM grind_pass WHERE batch_id = ? ORDER BY id');
  const addTest = db.prepare(
    'INSERT INTO fat_test (batch_id, fat, sd, method, at, by) VALUES (@batchId, @fat, @sd, @method, @at, @by)',
  );
  const tests = db.prepare<[number], { fat: number; sd: number; method: string; at: string; by: string }>(
    'SELECT fat, sd, method, at, by FROM fat_test WHERE batch_id = ? ORDER BY id',
  );
  return {
    get: (id: number) => get.get(id),
    open: () => open.all(),
    recent: (limit: number) => recent.all(limit),
    ofSeason: (season: number) => ofSeason.all(season),
    ofAnimal: (animalId: number) => ofAnimal.all(animalId),
    add(batch: {
      season: number;
      product: string;
      targetFat: number | null;
      plan: unknown;
      animalIds: readonly number[];
      startedOn: string;
      at: string;
      by: string;
    }): { id: number; name: string } {
      const { animalIds, plan, ...fields } = batch;
      const nameOf = (n: number): string => `G${seasonMark(batch.season)}-${String(n).padStart(3, '0')}`;
      const number = firstFree(nextNumber.get(batch.season) ?? 1, (n) => named.get(nameOf(n)) !== undefined);
      const name = nameOf(number);
      const id = Number(insert.run({ ...fields, number, name, plan: JSON.stringify(plan) }).lastInsertRowid);
      for (const animalId of animalIds) addAnimal.run(id, animalId);
      return { id, name };
    },
    animals: (id: number) => animals.all(id),
    /** The animals that share a batch with this one. */
    pooledWith: (animalId: number) => pooledWith.all(animalId),
    /** Animals on hold that share a batch with this one, positive ones first. */
    heldWith: (animalId: number) => heldWith.all(animalId),
    setState: (id: number, state: 'open' | 'done'): void => void setState.run(state, id),
    addPass: (pass: {
      batchId: number;
      pass: number;
      plate: string;
      typed: string | null;
      tenthsC: number | null;
      at: string;
      by: string;
    }): number => Number(addPass.run(pass).lastInsertRowid),
    passes: (id: number) => passes.all(id),
    addTest: (test: {
      batchId: number;
      fat: number;
      sd: number;
      method: string;
      at: string;
      by: string;
    }): number => Number(addTest.run(test).lastInsertRowid),
    tests: (id: number) => tests.all(id),
  };
}

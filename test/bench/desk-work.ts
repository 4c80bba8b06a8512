/** What a hand waits for all day: saving a weight, finding a hunter, quoting on the phone. */
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { CallInput } from '../../src/bridge/contract.ts';
import type { BenchDesk } from './open-desk.ts';
import type { Measure } from './timing.ts';

export const QUOTE: CallInput<'quote.work'> = {
  species: 'elk',
  sex: 'male',
  age: 'adult',
  brought: 'skinned',
  stage: 'hanging',
  typed: '350 lb',
  instructions: {
    cutsShare: 0.4,
    fat: 'pork-back-fat',
    targetFat: 0.15,
    grindProduct: 'Ground',
    packageGrams: 453.59237,
    extras: [],
  },
};

/** An animal on the hook that weights can be kept for without end. */
export async function animalToWeigh(desk: BenchDesk): Promise<number> {
  const { id } = await desk.call('intake.takeIn', {
    hunter: { name: 'Bench Mark', phone: '555-0100' },
    species: 'elk',
    sex: 'male',
    age: 'adult',
    brought: 'skinned',
    detail: 'detailed',
  });
  await desk.call('table.weigh', { animalId: id, stage: 'hanging', part: 'carcass', typed: '400' });
  return id;
}

export async function deskWork(desk: BenchDesk): Promise<{ measures: Measure[]; close: () => void }> {
  const animalId = await animalToWeigh(desk);
  const bare = bareTable(join(desk.path, '..', 'bare.gambrel'));
  let weighed = 0;
  return {
    measures: [
      {
        name: 'save one weighing',
        rounds: 60,
        // Taken back at once, so that the animal never outgrows its hook: two writes on either side.
        run: async () => {
          const { weighingId } = await desk.call('table.weigh', {
            animalId,
            stage: 'cut',
            part: 'trim',
            typed: `${(10 + (weighed++ % 900) / 100).toFixed(2)}`,
            sure: true,
          });
          await desk.call('table.void', { weighingId, reason: 'measured' });
        },
        baseline: { what: 'two bare prepared INSERTs', run: bare.insertTwice },
        bar: { ratio: 1.5 },
      },
      { name: 'quote', run: () => desk.call('quote.work', QUOTE), bar: { ms: 20 } },
      {
        name: 'find a hunter by name',
        run: () => desk.call('hunters.find', { text: 'whit' }),
        bar: { ms: 10 },
      },
      {
        name: 'find a hunter by one letter',
        run: () => desk.call('hunters.find', { text: 'd' }),
        bar: { ms: 10 },
      },
      {
        name: 'find a hunter by phone',
        run: () => desk.call('hunters.find', { text: '0142' }),
        bar: { ms: 10 },
      },
      { name: 'find nobody', run: () => desk.call('hunters.find', { text: 'zqxj' }), bar: { ms: 10 } },
      {
        name: 'find an animal by number',
        run: () => desk.call('animals.find', { text: '147' }),
        bar: { ms: 10 },
      },
      {
        name: 'find an animal by hunter',
        run: () => desk.call('animals.find', { text: 'dana' }),
        bar: { ms: 10 },
      },
      { name: 'open an animal', run: () => desk.call('animals.open', { ticket: '26-0147' }) },
      { name: 'look at the rail', run: () => desk.call('rail.look', {}) },
      { name: 'look at pick-up', run: () => desk.call('pickup.look', {}) },
      { name: 'look at the grinder', run: () => desk.call('grinder.look', {}) },
    ],
    close: bare.close,
  };
}

/** A table with the columns of a weighing and nothing else, written with the same durability. */
function bareTable(path: string) {
  const db = new Database(path);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  db.exec(`CREATE TABLE weighing (id INTEGER PRIMARY KEY, animal_id INTEGER, stage TEXT, part TEXT, typed TEXT, digits INTEGER, decimals INTEGER,
    unit TEXT, grams REAL, source TEXT, at TEXT, by TEXT) STRICT`);
  const insert = db.prepare(
    "INSERT INTO weighing (animal_id, stage, part, typed, digits, decimals, unit, grams, source, at, by) VALUES (1, 'cut', 'trim', '18.60', 1860, 2, 'lb', 8436.8, 'typed', '2026-11-14T12:00:00.000Z', 'LB')",
  );
  return {
    insertTwice(): void {
      insert.run();
      insert.run();
    },
    close: (): void => void db.close(),
  };
}

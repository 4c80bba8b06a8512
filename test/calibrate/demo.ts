/** Leave-one-out on the demo season: each finished animal is predicted by a model that learned from all the others. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openRecordBook, type Book } from '../../src/book/book.ts';
import { summarise, modelFrom, predict, removeObservation } from '../../src/core/yield/yield.ts';
import { DEMO_NOW } from '../../src/demo/season.ts';
import { demoAt } from '../demo-copy.ts';
import { SPECIES, speciesOf } from '../../src/desk/supplied/resources.ts';
import type { QuoteResult } from '../../src/desk/contract/contract.ts';
import { wholeTakeHomeGrams } from '../../src/desk/learning/take-home.ts';
import { observationOf } from '../../src/desk/learning/yield-observation.ts';
import { DRAWS, LEVELS } from './coverage.ts';

/** How often ranges held what was weighed afterwards, by level (in the order of the levels). */
export interface Held {
  readonly name: string;
  readonly animals: number;
  readonly held: readonly number[];
}

/** Makes the demo book in a folder of its own, and takes it away again. */
export async function withDemo<T>(work: (book: Book) => T): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-calibrate-'));
  const path = join(folder, 'demo.gambrel');
  await demoAt(path);
  const book = openRecordBook(path, DEMO_NOW, true);
  try {
    return work(book);
  } finally {
    book.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Take-home of every finished animal against its range at each of LEVELS, by species, all together last. */
export function leaveOneOut(book: Book): Held[] {
  const observations = book.sums
    .finished()
    .map((row) => observationOf(row))
    .filter((one) => one !== null);
  const sums = summarise(observations);
  const animals = observations.flatMap((observation, seed) => {
    const { hangingGrams, takeHomeGrams, group } = observation;
    if (takeHomeGrams === undefined) return [];
    const model = modelFrom(SPECIES, removeObservation(sums, observation));
    const held = LEVELS.map((level) => {
      const { low, high } = predict(model, { hangingGrams, group, level, seed, draws: DRAWS }).parts.takeHome;
      return low <= takeHomeGrams && takeHomeGrams <= high ? 1 : 0;
    });
    return [{ species: group.species, held }];
  });
  const count = (name: string, of: typeof animals): Held => ({
    name,
    animals: of.length,
    held: LEVELS.map((_, i) => of.reduce((total, { held }) => total + (held[i] ?? 0), 0)),
  });
  const bySpecies = [...Map.groupBy(animals, ({ species }) => species)]
    .map(([code, of]) => count(speciesOf(code).name, of))
    .sort((a, b) => b.animals - a.animals || a.name.localeCompare(b.name));
  return [...bySpecies, count('all', animals)];
}

/** Take-home as quoted (8 in 10), before any bought fat, of the quotes whose animal came and is finished. */
export function quotesHeld(book: Book): Held {
  const takeHome = new Map(book.sums.finished().map((row) => [row.id, wholeTakeHomeGrams(row)]));
  const taken = book.db
    .prepare<[], { animal: number; answered: string }>(
      'SELECT t.animal_id AS animal, q.answered FROM quote q JOIN quote_taken t ON t.quote_id = q.id',
    )
    .all()
    .flatMap(({ animal, answered }) => {
      const grams = takeHome.get(animal) ?? null;
      return grams === null ? [] : [{ grams, quote: JSON.parse(answered) as QuoteResult }];
    });
  const inside = taken.filter(({ grams, quote: { takeHomeGrams, fatToBuyGrams } }) => {
    const own = (end: 'low' | 'high') => takeHomeGrams[end] - fatToBuyGrams[end];
    return own('low') <= grams && grams <= own('high');
  });
  return { name: 'quotes', animals: taken.length, held: [inside.length] };
}

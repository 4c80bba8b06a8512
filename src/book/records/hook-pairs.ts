import type { AnimalRow } from './animals.ts';
import type { Db } from '../file/db.ts';

/** An animal's received and hanging weights. */
export interface HookPair {
  id: number;
  species: string;
  brought: AnimalRow['brought'];
  legs: AnimalRow['legs'];
  sex: AnimalRow['sex'];
  received_on: string;
  received: number;
  hanging: number;
  /** Time of the last hanging weight. */
  hung_at: string;
}

/**
 * Maximum number of newest animals scanned and of pairs used, so that learning costs the same in every season. Our
 * choice.
 */
const NEWEST_ANIMALS = 10_000;
const MAX_PAIRS = 400;

/** Animals with both weights that have left the hook, so that no further weights are expected. */
export function hookPairs(db: Db) {
  const pairs = (which: string): string =>
    `SELECT s.animal_id AS id, s.species, s.brought, a.legs, s.sex, s.received_on, s.received, s.hanging, max(w.at) AS hung_at
     FROM animal_sum s JOIN animal a ON a.id = s.animal_id JOIN weighing_now w ON w.animal_id = s.animal_id AND w.stage = 'hanging'
     WHERE ${which} AND s.stage != 'hanging' AND s.received IS NOT NULL AND s.hanging IS NOT NULL
     GROUP BY s.animal_id`;
  const newest = db.prepare<[], HookPair>(
    `${pairs('s.animal_id > (SELECT max(animal_id) FROM animal_sum) - ' + NEWEST_ANIMALS)}
     ORDER BY s.animal_id DESC LIMIT ${MAX_PAIRS}`,
  );
  const one = db.prepare<[number], HookPair>(pairs('s.animal_id = ?'));
  return {
    newest: () => newest.all(),
    of: (animalId: number) => one.get(animalId),
  };
}

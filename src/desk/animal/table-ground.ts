/**
 * Ground meat that was packed at the Table without a batch. Nobody recorded when it was ground, so it cannot be
 * traced. This names what it may have met in the grinder, so that a person can decide.
 */
import type { TablePackedRow } from '../../book/records/results/traces.ts';
import { reachOf, type TracedBatch } from '../../core/trace/reach.ts';
import { momentsOf } from '../../core/values/local-moment.ts';
import type { Session } from '../session/session.ts';
import { groundProducts } from './product-named.ts';
import { batchesOf, cleaningsFor } from './traces.ts';

/** What may have met an animal's meat in the grinder, beyond what is traced. */
export interface UntracedReach {
  /** The animal's own ground meat was packed at the Table without a batch. */
  own: boolean;
  /** Other animals that may be affected, with their products or batches. */
  animals: { id: number; where: string[]; packages: number; grams: number }[];
}

/**
 * Adds ground meat packed at the Table to the reach of an animal. It may have been ground at any time between the
 * animal's first cut (or the morning of its packing) and its last package, so it is treated as a batch that was in
 * the grinder all that time. This overestimates the reach and never underestimates it.
 */
export function untracedReach(session: Session, animalId: number, season: number): UntracedReach {
  const isGround = groundProducts(session);
  const rows = session.book.traces.tablePacked(season).filter(({ product }) => isGround(product));
  const ofAnimal = Map.groupBy(rows, ({ animal }) => animal);
  const batches = batchesOf(session, season);
  // Negative ids cannot collide with ids of batches.
  const all = [...batches, ...[...ofAnimal].map(([animal, packed]) => asBatch(session, animal, packed))];
  const cleanings = cleaningsFor(session, all);
  const traced = reachOf(animalId, batches, cleanings);
  const byId = new Map(batches.map((one) => [one.id, one]));
  const animals = new Map<number, UntracedReach['animals'][number]>();
  const add = (id: number, where: string[], packages: number, grams: number): void => {
    if (id === animalId) return;
    const one = animals.get(id) ?? { id, where: [], packages: 0, grams: 0 };
    animals.set(id, {
      id,
      where: [...one.where, ...where],
      packages: one.packages + packages,
      grams: one.grams + grams,
    });
  };
  for (const id of reachOf(animalId, all, cleanings).keys()) {
    const packed = ofAnimal.get(-id);
    if (packed)
      add(-id, packed.map(({ product }) => product), sum(packed, 'count'), sum(packed, 'grams')); // prettier-ignore
    else if (!traced.has(id))
      for (const animal of byId.get(id)?.animals ?? [])
        add(animal, [session.book.batches.get(id)?.name ?? ''], 0, 0);
  }
  return { own: ofAnimal.has(animalId), animals: [...animals.values()].sort((a, b) => a.id - b.id) };
}

function asBatch(session: Session, animal: number, packed: readonly TablePackedRow[]): TracedBatch {
  const starts = packed.map(({ first, cut }) => {
    if (cut !== null && cut < first) return cut;
    const [morning = 0] = momentsOf(session.dayOf(first), 0, session.settings.zone);
    return new Date(morning).toISOString();
  });
  const first = starts.reduce((a, b) => (a < b ? a : b));
  const last = packed.map((one) => one.last).reduce((a, b) => (a > b ? a : b));
  return { id: -animal, animals: [animal], first, ground: last, clear: last, last };
}

const sum = (rows: readonly TablePackedRow[], of: 'count' | 'grams'): number =>
  rows.reduce((total, row) => total + row[of], 0);

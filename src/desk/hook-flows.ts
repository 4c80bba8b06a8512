/** From what came in to what hangs: lost between is hide and head, or only what the cooler takes. */
import type { AnimalRow } from '../book/animals.ts';
import type { WeighingRecord, WeightSums } from '../book/weighings.ts';
import type { Flow } from '../core/balance.ts';
import { daysBetween } from '../core/dates.ts';
import { shrinkAfter } from '../core/hanging.ts';
import type { SpeciesProfile } from '../core/species.ts';
import { flowOf } from './balance-flow.ts';

/** Flows that end in `next`, the place where the cutting begins: the block, or the table where no primal was weighed. */
export function hookFlows(
  species: SpeciesProfile,
  animal: AnimalRow,
  weighings: readonly WeighingRecord[],
  sums: WeightSums,
  today: string,
  next: string,
): Flow[] {
  const hanging = weighings.filter((row) => row.stage === 'hanging' && row.void_at === null);
  const received = weighings.filter((row) => row.stage === 'received' && row.void_at === null);
  const into = received.map((row) => flowOf(row, null, 'hook'));
  const onto = hanging.map((row) => flowOf(row, 'hook', next));
  if (sums.received === null) return hanging.map((row) => flowOf(row, null, next));
  if (onto.length === 0) {
    const lost = animal.brought === 'whole' ? hideAndHead(species, sums.received) : null;
    if (!lost) return received.map((row) => flowOf(row, null, next));
    return [
      ...into,
      { id: 'hide', from: 'hook', to: null, grams: null, prior: lost },
      { id: `onto ${next}`, from: 'hook', to: next, grams: null },
    ];
  }
  const lost =
    animal.brought === 'whole'
      ? hideAndHead(species, sums.received)
      : chilling(animal, sums.received, hanging.at(-1)?.at.slice(0, 10) ?? today);
  return [...into, ...onto, { id: 'hide', from: 'hook', to: null, grams: null, prior: lost }];
}

function hideAndHead({ ratios }: SpeciesProfile, received: number): { mean: number; sd: number } {
  const { mean, sd } = ratios.dressedToHanging;
  return { mean: (1 - mean) * received, sd: sd * received };
}

/** What the cooler takes until the day of the hanging weight. */
function chilling(animal: AnimalRow, received: number, on: string): { mean: number; sd: number } {
  const { mean, sd } = shrinkAfter(Math.max(1, daysBetween(animal.received_on, on)));
  return { mean: mean * received, sd: sd * received };
}

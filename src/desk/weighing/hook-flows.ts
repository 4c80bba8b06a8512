/** Flows from the received to the hanging weight: hide, head and shrink are lost in between. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { WeightSums } from '../../book/records/weighings.ts';
import type { Flow } from '../../core/balance/balance.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { flowOf, type BalanceRow } from './balance-flow.ts';
import type { HookShrink } from '../learning/hook-shrink.ts';

/** Flows that end in `next`, where cutting starts: the block, or the Table if no primal was weighed. */
export function hookFlows(
  species: SpeciesProfile,
  animal: AnimalRow,
  weighings: readonly BalanceRow[],
  sums: Pick<WeightSums, 'received'>,
  shrink: HookShrink,
  next: string,
): Flow[] {
  const hanging = weighings.filter((row) => row.stage === 'hanging' && row.void_at === null);
  const received = weighings.filter((row) => row.stage === 'received' && row.void_at === null);
  const into = received.map((row) => flowOf(row, null, 'hook'));
  const onto = hanging.map((row) => flowOf(row, 'hook', next));
  if (sums.received === null) return hanging.map((row) => flowOf(row, null, next));
  const hungAt = hanging.at(-1)?.at ?? null;
  // Without hide and hanging weight, everything received goes on.
  if (hungAt === null && animal.brought !== 'whole') return received.map((row) => flowOf(row, null, next));
  const { mean, sd } = shrink.lost(animal, species, sums.received, hungAt);
  const lost = { mean: mean * sums.received, sd: sd * sums.received };
  return [
    ...into,
    ...onto,
    { id: 'hide', from: 'hook', to: null, grams: null, prior: lost },
    ...(onto.length === 0 ? [{ id: `onto ${next}`, from: 'hook', to: next, grams: null }] : []),
  ];
}

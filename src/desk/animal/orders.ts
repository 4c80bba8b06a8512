/**
 * Normalizes cutting instructions: only primals that the animal has, and the share of whole cuts that follows from
 * them.
 */
import { receivedPrimals, wholeCutsShare } from '../../core/species/cutting.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Instructions } from '../contract/contract.ts';

/**
 * Checks the primals and sets the share of whole cuts from them; primals that did not come in are ignored.
 * Instructions with a share only are not changed.
 * @throws ProblemError `primal.unknown`
 */
export function normalizeOrders(
  species: SpeciesProfile,
  parts: readonly { primal: string; count: number }[],
  instructions: Instructions,
): Instructions {
  const { primals: orders } = instructions;
  if (orders.length === 0) return instructions;
  for (const { primal } of orders)
    if (!species.primals.some(({ code }) => code === primal))
      throw new ProblemError('invalid', 'primal.unknown', {
        field: 'instructions.primals',
        with: { primal },
      });
  const there = receivedPrimals(species.primals, parts);
  if (there.length === 0) return instructions;
  const ordered = orders.filter(({ primal }) => there.some(({ code }) => code === primal));
  return { ...instructions, cutsShare: wholeCutsShare(there, ordered) };
}

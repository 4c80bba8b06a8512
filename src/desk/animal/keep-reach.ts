/** The reach of a positive result never shrinks: no change of weights releases a batch or an animal. */
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { tracesOf } from './traces.ts';

/**
 * Runs a change of one weight, and refuses it if another animal, or a batch with its meat, would no longer be reached
 * by a positive result, since residue stays in the grinder. Removing a duplicate weight releases nothing, so it is
 * allowed.
 * @throws ProblemError `batch.reached-out`, and what the change throws
 */
export function keepingReach<T>(
  session: Session,
  { batch_id: batchId, animal_id: animalId }: Pick<WeighingRecord, 'batch_id' | 'animal_id'>,
  change: () => T,
): T {
  const season =
    batchId === null
      ? session.book.animals.get(animalId ?? 0)?.season
      : session.book.batches.get(batchId)?.season;
  if (season === undefined) return change();
  const before = tracesOf(session, season);
  const done = change();
  if (before.reached.length === 0) return done;
  const after = tracesOf(session, season);
  for (const { source, batches } of before.reached) {
    const still = after.reached.find((one) => one.source.id === source.id)?.batches;
    for (const reached of batches.keys()) {
      const left = still?.has(reached) ? after.members.get(reached) : undefined;
      const freed = before.members.get(reached)?.find((id) => id !== source.id && !left?.includes(id));
      if (freed !== undefined)
        throw new ProblemError('refused', 'batch.reached-out', {
          with: {
            ticket: source.ticket,
            other: session.book.animals.get(freed)?.ticket ?? '',
            batch: session.book.batches.get(reached)?.name ?? '',
          },
        });
    }
  }
  return done;
}

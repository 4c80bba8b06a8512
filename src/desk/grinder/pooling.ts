/** Hunters who want no pooling: their meat goes into no batch with another animal's. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** @throws ProblemError `trim.twice` (invalid), `animal.unknown`, `batch.no-pooling` (refused) */
export function refusePooled(session: Session, ids: readonly number[]): void {
  if (new Set(ids).size !== ids.length) throw new ProblemError('invalid', 'trim.twice', { field: 'animals' });
  if (ids.length < 2) return;
  const refusing = ids
    .flatMap((id) => session.book.animals.get(id) ?? [])
    .find((one) => refuses(session, one));
  if (refusing)
    throw new ProblemError('refused', 'batch.no-pooling', {
      field: 'animals',
      with: { hunter: refusing.hunter, ticket: refusing.ticket },
    });
}

/**
 * As `refusePooled`, for a weight going into a batch that may have started before the hunter refused pooling or
 * before the owner was corrected. @throws ProblemError `batch.no-pooling`
 */
export function refusePooledInBatch(session: Session, batchId: number, animalId: number | null): void {
  if (animalId === null) return;
  const weighed = session.book.weighings.ofBatch(batchId).filter(({ void_at }) => void_at === null);
  const weighedIn = session.book.batches
    .animals(batchId)
    .filter(({ id }) => id === animalId || weighed.some(({ animal_id }) => animal_id === id));
  refusePooled(
    session,
    weighedIn.map(({ id }) => id),
  );
}

function refuses(session: Session, { hunter_id: hunterId }: AnimalRow): boolean {
  return session.book.hunters.get(hunterId)?.refuses_pooling === 1;
}

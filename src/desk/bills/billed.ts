import type { AnimalRow } from '../../book/records/animals.ts';
import { refuseStage } from '../animal/closed.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/**
 * What is charged changes only while no bill stands: one that was made is frozen.
 * @throws ProblemError `bill.stands`, `animal.closed` (refused)
 */
export function refuseBilled(session: Session, animal: AnimalRow): void {
  refuseStage(animal, 'disposed', 'canceled');
  refuseStanding(session, animal.id);
}

/** @throws ProblemError `bill.stands` (refused) */
export function refuseStanding(session: Session, animalId: number): void {
  const standing = session.book.bills.ofAnimal(animalId).find((bill) => bill.void_at === null);
  if (standing) throw new ProblemError('refused', 'bill.stands', { with: { number: standing.number } });
}

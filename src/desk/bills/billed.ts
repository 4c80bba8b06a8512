import type { AnimalRow } from '../../book/records/animals.ts';
import { refuseStage } from '../animal/closed.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** Of one animal, voided ones included; all of them are read with its bill. */
const MAX_BILLS = 100;

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
  const standing = session.book.bills.standing(animalId);
  if (standing) throw new ProblemError('refused', 'bill.stands', { with: { number: standing.number } });
}

/** Called before one more bill is made. @throws ProblemError `bill.too-many` (refused) */
export function refuseMoreBills(session: Session, { id, ticket }: AnimalRow): void {
  if (session.book.bills.ofAnimal(id).length >= MAX_BILLS)
    throw new ProblemError('refused', 'bill.too-many', { with: { ticket, count: MAX_BILLS } });
}

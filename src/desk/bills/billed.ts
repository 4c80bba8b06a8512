import type { AnimalRow } from '../../book/records/animals.ts';
import { refuseStage } from '../animal/closed.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** Per animal, including voided ones; all are loaded with its bill. */
const MAX_BILLS = 100;

/**
 * Refuses changes of charges while a bill is active, because bills are frozen.
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

/** Checks the limit before another bill is made. @throws ProblemError `bill.too-many` (refused) */
export function refuseMoreBills(session: Session, { id, ticket }: AnimalRow): void {
  if (session.book.bills.ofAnimal(id).length >= MAX_BILLS)
    throw new ProblemError('refused', 'bill.too-many', { with: { ticket, count: MAX_BILLS } });
}

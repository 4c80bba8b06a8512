import type { AnimalRow } from '../../book/records/animals.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/**
 * What is charged changes only while no bill stands: one that was made is frozen.
 * @throws ProblemError `bill.stands`, `animal.closed` (refused)
 */
export function refuseBilled(session: Session, animal: AnimalRow): void {
  if (animal.stage === 'disposed')
    throw new ProblemError('refused', 'animal.closed', {
      with: { ticket: animal.ticket, stage: animal.stage },
    });
  const standing = session.book.bills.ofAnimal(animal.id).find((bill) => bill.void_at === null);
  if (standing) throw new ProblemError('refused', 'bill.stands', { with: { number: standing.number } });
}

/** Voids the statement that an animal goes back unprocessed (`animals/unprocessed.ts`). */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { Session } from '../session/session.ts';
import { moveOn } from './stage.ts';

/** Voids the statement if there is one. @returns whether one was voided */
export function endUnprocessed(
  session: Session,
  animalId: number,
  { reason, by: initials }: { reason: string; by: string },
): boolean {
  const stated = session.book.leaving.unprocessed(animalId);
  if (!stated) return false;
  session.book.leaving.voidUnprocessed({ id: stated.id, reason, at: session.now(), by: initials });
  return true;
}

/**
 * A weight of a part, of trim going into the grinder, or of packages implies that the animal is processed after all.
 */
export function worksOn(session: Session, animal: AnimalRow, stage: string, by: string): void {
  const to = stage === 'packed' ? 'packing' : stage === 'received' || stage === 'hanging' ? null : 'cutting';
  if (to === null || !endUnprocessed(session, animal.id, { reason: to, by })) return;
  if (animal.stage === 'ready') moveOn(session, animal, to, by);
}

import type { AnimalRow } from '../../book/records/animals.ts';
import { refusePooledWithHeld } from './hold-rules.ts';
import type { ReadyDoubts } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import type { AnimalStage } from '../../trade/animal.ts';

/**
 * Moves an animal to a stage and records who did it. Every change to `ready` and `released` goes through here, so
 * none skips the check for held meat. The audit entry includes the answer and the differences that it confirmed.
 * @throws ProblemError `pooled.held`, `pooled.positive`, `pooled.through-grinder`
 */
export function moveOn(
  session: Session,
  animal: AnimalRow,
  to: Exclude<AnimalStage, 'canceled'>,
  by: string,
  answered: { doubts: ReadyDoubts | null; answer: string } | null = null,
): void {
  if (to === 'ready' || to === 'released') refusePooledWithHeld(session, animal);
  session.book.animals.setStage(animal.id, to, session.today());
  session.book.audit.note({
    record: 'animal',
    recordId: animal.id,
    act: 'change',
    before: { stage: animal.stage },
    after: { stage: to, ...(answered?.doubts && { doubts: answered.doubts }) },
    reason: answered?.answer ?? '',
    at: session.now(),
    by,
  });
}

import type { AnimalRow } from '../../book/records/animals.ts';
import { refusePooledWithHeld } from './hold-rules.ts';
import type { ReadyDoubts } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import type { AnimalStage } from '../../trade/animal.ts';

/**
 * Moves an animal on, and keeps who did it. Every way to `ready` and `released` leads through here, so that none
 * passes by the meat of a held animal. What was answered is kept with the step, with the doubts about its amounts where there
 * were any. @throws ProblemError `pooled.held`, `pooled.positive`, `pooled.through-grinder`
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

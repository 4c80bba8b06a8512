/** Cancels a mistaken intake. The record stays readable, and its ticket number is not reused. */
import * as v from 'valibot';
import type { AnimalRow } from '../../book/records/animals.ts';
import { openAnimalOf } from '../animal/closed.ts';
import { dueOf } from '../bills/due.ts';
import { accountCurrency } from '../pricing/account.ts';
import { by, id, needed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

/** Stages that block cancelation; received and hanging weights do not. */
const WEIGHED_OUT: readonly string[] = ['primal', 'cut', 'grinder', 'packed'];

/**
 * Cancels an intake. Refused after meat was weighed out, while a bill is active or money is on the account, and after
 * a positive result. `animals.reopen` undoes it.
 * @throws ProblemError `animal.unknown`, `animal.closed`, `cancel.weighed`, `cancel.billed`, `cancel.paid`,
 * `cancel.positive`
 */
export const cancel = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const animal = openAnimalOf(session, input.id);
  refuseUsed(session, animal);
  const stamp = { reason: input.reason, at: session.now(), by: input.by };
  session.book.cancels.add({ animalId: animal.id, stageBefore: animal.stage, ...stamp });
  session.book.animals.setStage(animal.id, 'disposed', session.today());
  session.book.audit.note({
    record: 'animal', recordId: animal.id, act: 'change', before: { stage: animal.stage }, after: { stage: 'canceled' }, ...stamp,
  }); // prettier-ignore
  return { id: animal.id };
});

/** Refuses with what must be voided first. */
function refuseUsed(session: Session, { id: animalId, ticket }: AnimalRow): void {
  const weighed = session.book.weighings
    .ofAnimal(animalId)
    .filter(({ stage, void_at }) => void_at === null && WEIGHED_OUT.includes(stage));
  if (weighed.length > 0)
    throw new ProblemError('refused', 'cancel.weighed', { with: { ticket, count: weighed.length } });
  const { billed, number } = dueOf(session, animalId);
  if (billed) throw new ProblemError('refused', 'cancel.billed', { with: { ticket, number: number ?? 0 } });
  const paidMinor = session.book.payments.paid(animalId);
  if (paidMinor !== 0)
    throw new ProblemError('refused', 'cancel.paid', {
      with: { ticket, paidMinor, currency: accountCurrency(session, animalId) },
    });
  if (session.book.animals.hold(animalId)?.positive === 1)
    throw new ProblemError('refused', 'cancel.positive', { with: { ticket } });
}

import * as v from 'valibot';
import { compareDates } from '../../core/values/dates.ts';
import { askFar, DISPOSED_DAYS, refuseFuture } from '../input/day-doubts.ts';
import { discardOwnFat } from '../animal/fat-moves.ts';
import { by, id, needed, optionalDate, confirmedOf, text } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { openAnimalOf } from '../animal/closed.ts';

/**
 * Records the disposal of an animal: it leaves the rail and stays in the record book. Without a positive result a
 * reason is required (spoiled, condemned by an inspector …), because the meat belongs to somebody else. Returns the
 * other animals of its batches, whose hunters must be notified.
 * @throws ProblemError `animal.closed`, `dispose.reason`, `date.future`, `date.disposed-before-received`,
 * `date.long-ago` (conflict: pass `confirmed`)
 */
export const dispose = write(
  v.object({
    id,
    what: needed(200),
    how: needed(200),
    reason: text(300),
    on: optionalDate,
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    const animal = openAnimalOf(session, input.id);
    const positive = session.book.animals.hold(animal.id)?.positive === 1;
    if (!positive && input.reason === '')
      throw new ProblemError('invalid', 'dispose.reason', {
        field: 'reason',
        with: { ticket: animal.ticket },
      });
    const on = input.on ?? session.today();
    refuseFuture(on, session.today(), 'on');
    if (compareDates(on, animal.received_on) < 0)
      throw new ProblemError('invalid', 'date.disposed-before-received', { field: 'on' });
    askFar(input.confirmed, 'on', on, session.today(), { ago: DISPOSED_DAYS });
    const { what, how, reason, by: initials } = input;
    const at = session.now();
    session.book.records.dispose({ animalId: animal.id, what, how, reason, on, at, by: initials });
    const fatMovementId = discardOwnFat(session, animal, initials);
    session.book.animals.setStage(animal.id, 'disposed', on);
    session.book.audit.note({
      record: 'animal', recordId: animal.id, act: 'change', before: { stage: animal.stage },
      after: { stage: 'disposed', what, how, on, fatMovementId }, reason: positive ? 'positive' : reason, at, by: initials,
    }); // prettier-ignore
    return { id: animal.id, pooledWith: session.book.batches.pooledWith(animal.id) };
  },
);

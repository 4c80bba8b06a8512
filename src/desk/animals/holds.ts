import * as v from 'valibot';
import { by, id, needed, text } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { animalOf, refuseStage } from '../animal/closed.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';

/**
 * Holds an animal; also after pickup, for everybody who shares its grind. @throws ProblemError `animal.closed`,
 * `hold.too-many`
 */
export const hold = write(v.object({ id, reason: needed(200), sample: text(80), by }), (session, input) => {
  const animal = animalOf(session, input.id);
  refuseStage(animal, 'disposed', 'canceled');
  refuseMoreOfAnimal(session, animal, 'hold');
  session.book.animals.addHold(animal.id, input.reason, input.sample, session.now(), input.by);
  return { id: animal.id };
});

/**
 * Ends a hold without a test result, with a reason (entered for the wrong animal, passed by an inspector …).
 * Laboratory results are entered with `animals.testResult`. @throws ProblemError `hold.none`, `hold.positive`
 */
export const endHold = write(v.object({ id, reason: needed(500), by }), (session, input) => {
  const animal = animalOf(session, input.id);
  const open = session.book.animals.hold(animal.id);
  if (!open) throw new ProblemError('missing', 'hold.none', { with: { ticket: animal.ticket } });
  if (open.positive === 1)
    throw new ProblemError('refused', 'hold.positive', { with: { ticket: animal.ticket } });
  session.book.animals.endHold(open.id, 'withdrawn', input.reason, session.now(), input.by);
  return { id: animal.id };
});

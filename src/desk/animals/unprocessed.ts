/** Animals returned to the hunter unprocessed; only work that was done is billed. */
import * as v from 'valibot';
import { endUnprocessed } from '../animal/end-unprocessed.ts';
import { openAnimalOf } from '../animal/closed.ts';
import { moveOn } from '../animal/stage.ts';
import { by, id, needed } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';

/**
 * States that an animal goes back unprocessed, which makes it ready for pickup. Refused once meat was ground or
 * packed.
 * @throws ProblemError `animal.closed`, `unprocessed.stated`, `unprocessed.packed`, `unprocessed.too-many`
 */
export const add = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const animal = openAnimalOf(session, input.id);
  refuseMoreOfAnimal(session, animal, 'unprocessed');
  if (session.book.leaving.unprocessed(animal.id))
    throw new ProblemError('conflict', 'unprocessed.stated', { with: { ticket: animal.ticket } });
  const done = session.book.weighings
    .ofAnimal(animal.id)
    .some(({ stage, void_at }) => void_at === null && (stage === 'grinder' || stage === 'packed'));
  if (done) throw new ProblemError('refused', 'unprocessed.packed', { with: { ticket: animal.ticket } });
  session.book.leaving.addUnprocessed({
    animalId: animal.id,
    reason: input.reason,
    at: session.now(),
    by: input.by,
  });
  moveOn(session, animal, 'ready', input.by);
  return { id: animal.id };
});

/**
 * Voids the statement: the animal is processed after all. @throws ProblemError `animal.closed`, `unprocessed.none`
 */
export const voidOne = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const animal = openAnimalOf(session, input.id);
  if (!endUnprocessed(session, animal.id, input))
    throw new ProblemError('refused', 'unprocessed.none', { with: { ticket: animal.ticket } });
  const cut = session.book.weighings
    .ofAnimal(animal.id)
    .some(({ stage, void_at }) => void_at === null && (stage === 'cut' || stage === 'primal'));
  moveOn(session, animal, cut ? 'cutting' : 'hanging', input.by);
  return { id: animal.id };
});

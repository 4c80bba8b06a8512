import * as v from 'valibot';
import { nameKey } from '../../book/records/hunters.ts';
import { animalPage } from './animal-page.ts';
import { refuseHeldStep, refusePooledWithHeld } from '../animal/hold-rules.ts';
import { by, confirmed, id, instructions, needed, text } from '../input/input.ts';
import { askReady } from '../animal/ready-check.ts';
import { normalizeOrders } from '../animal/orders.ts';
import { refuseOtherExtras } from '../bills/extras.ts';
import { readAfterLearning } from '../session/read-after-learning.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { endUnprocessed } from '../animal/end-unprocessed.ts';
import { moveOn } from '../animal/stage.ts';
import { ticketOfSlip } from './check-in/slips.ts';
import { animalOf, openAnimalOf } from '../animal/closed.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';

/** One animal by its ticket or its id. */
export const get = readAfterLearning(
  v.object({ id: v.optional(id), ticket: v.optional(needed(20)) }),
  (session, input) => {
    const animal =
      input.ticket === undefined
        ? animalOf(session, input.id ?? 0)
        : session.book.animals.byTicket(input.ticket);
    if (!animal)
      throw new ProblemError('missing', 'ticket.unknown', {
        field: 'ticket',
        with: { ticket: input.ticket ?? '' },
      });
    return animalPage(session, animal);
  },
);

/** By ticket, by running number (newest season first), by part of the hunter's name, or by the number of the slip it came with. */
export const find = read(v.object({ text: text(200) }), (session, input) => {
  const wanted = ticketOfSlip(session, input.text) ?? input.text;
  return session.book.animals.find(wanted, nameKey(wanted)).map((animal) => ({
    id: animal.id,
    ticket: animal.ticket,
    hunter: animal.hunter,
    speciesName: session.species.of(animal.species).name,
    stage: animal.stage,
  }));
});

/**
 * Moves an animal to a stage.
 * @throws ProblemError `animal.closed`, `cut.held`, `cut.positive`; to `ready` also `pooled.held`, `pooled.positive`,
 * `pooled.through-grinder`, and `ready.amounts` (conflict: pass `confirmed` and an `answer`)
 */
export const setStage = write(
  v.object({
    id,
    stage: v.picklist(['hanging', 'cutting', 'packing', 'ready'], 'choice.stage'),
    /** Why packed and cut weights differ; stored as the reason, whether or not confirmation was needed. */
    answer: text(300),
    confirmed,
    by,
  }),
  (session, input) => {
    const animal = openAnimalOf(session, input.id);
    refuseHeldStep(session, animal, input.stage);
    // Refuse what cannot leave before asking about its amounts.
    if (input.stage === 'ready') refusePooledWithHeld(session, animal);
    const doubts = input.stage === 'ready' ? askReady(session, animal, input) : null;
    moveOn(session, animal, input.stage, input.by, { doubts, answer: input.answer });
    // Working on the animal ends the statement that it goes back unprocessed.
    if (input.stage !== 'ready') endUnprocessed(session, animal.id, { reason: input.stage, by: input.by });
    return { id: animal.id };
  },
);

/** Sets detailed or quick weighing from now on; existing weights stay. */
export const setDetail = write(
  v.object({ id, detail: v.picklist(['detailed', 'quick'], 'choice.detail'), by }),
  (session, input) => {
    const animal = openAnimalOf(session, input.id);
    session.book.animals.setDetail(animal.id, input.detail);
    session.book.audit.note({
      record: 'animal',
      recordId: animal.id,
      act: 'change',
      before: { detail: animal.detail },
      after: { detail: input.detail },
      at: session.now(),
      by: input.by,
    });
    return { id: animal.id };
  },
);

/**
 * Saves new instructions; earlier ones stay readable.
 * @throws ProblemError `animal.unknown`, `animal.closed`, `orders.too-many`, `bill.stands` (the extras differ from
 * the bill)
 */
export const saveOrders = write(v.object({ id, instructions, by }), (session, input) => {
  const { id: animalId, species, ticket } = openAnimalOf(session, input.id);
  refuseOtherExtras(session, animalId, input.instructions.pricedExtras);
  refuseMoreOfAnimal(session, { id: animalId, ticket }, 'instructions');
  const parts = session.book.animals.parts(animalId);
  const settled = normalizeOrders(session.species.of(species), parts, input.instructions);
  session.book.animals.instruct(animalId, settled, session.now(), input.by);
  return { id: input.id };
});

/** What came with an animal: antlers, cape, heart … Each is entered once; where it went is a second row. */
import * as v from 'valibot';
import { compareDates } from '../../core/values/dates.ts';
import { belongingsOf } from '../animal/belongings.ts';
import { animalOf, refuseStage } from '../animal/closed.ts';
import { askFar, DISPOSED_DAYS, refuseFuture } from '../input/day-doubts.ts';
import { by, confirmedOf, id, needed, optionalDate, text } from '../input/input.ts';
import { refuseMoreOfAnimal } from '../session/list-limits.ts';
import { read, write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { BELONGING_WENT } from '../../trade/belongings.ts';

/** Input for one belonging at intake. */
export const newBelonging = v.object({
  kind: needed(60),
  tag: text(80),
  place: text(80),
  evidence: v.optional(v.boolean('input.invalid'), false),
  note: text(300),
});

/** Belongings of one animal, including those that left. @throws ProblemError `animal.unknown` */
export const list = read(v.object({ animalId: id }), (session, { animalId }) =>
  belongingsOf(session, animalOf(session, animalId).id),
);

/** Adds one belonging. @throws ProblemError `animal.unknown`, `animal.closed` (canceled), `belonging.too-many` */
export const add = write(v.object({ animalId: id, ...newBelonging.entries, by }), (session, input) => {
  const animal = animalOf(session, input.animalId);
  refuseStage(animal, 'canceled');
  return { id: addBelonging(session, animal, input, input.by) };
});

/** @throws ProblemError `belonging.too-many` */
export function addBelonging(
  session: Session,
  animal: { id: number; ticket: string },
  { kind, tag, place, evidence, note }: v.InferOutput<typeof newBelonging>,
  initials: string,
): number {
  refuseMoreOfAnimal(session, animal, 'belonging');
  const at = session.now();
  return session.book.belongings.add({
    animalId: animal.id,
    kind,
    tag,
    place,
    evidence,
    note,
    at,
    by: initials,
  });
}

/** Voids a belonging entered by mistake. @throws ProblemError `belonging.unknown`, `belonging.voided` */
export const voidOne = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const found = standing(session, input.id);
  session.book.belongings.void(found.id, input.reason, session.now(), input.by);
  return { id: found.id };
});

/**
 * Records where a belonging went. A taxidermist must be named; the day defaults to today.
 * @throws ProblemError `belonging.unknown`, `belonging.voided`, `belonging.gone`, `belonging.taxidermist`,
 * `date.future`, `belonging.before-received`; `date.long-ago` (conflict: pass `confirmed`)
 */
export const end = write(
  v.object({
    id,
    went: v.picklist(BELONGING_WENT, 'choice.went'),
    name: text(200),
    receipt: text(80),
    on: optionalDate,
    note: text(300),
    confirmed: confirmedOf,
    by,
  }),
  (session, input) => {
    const found = standing(session, input.id);
    if (found.end_id !== null)
      throw new ProblemError('conflict', 'belonging.gone', {
        with: { kind: found.kind, went: found.went ?? '', on: found.ended_on ?? '' },
      });
    if (input.went === 'taxidermist' && input.name === '')
      throw new ProblemError('invalid', 'belonging.taxidermist', { field: 'name' });
    const on = input.on ?? session.today();
    refuseFuture(on, session.today(), 'on');
    const animal = animalOf(session, found.animal_id);
    if (compareDates(on, animal.received_on) < 0)
      throw new ProblemError('invalid', 'belonging.before-received', { field: 'on' });
    askFar(input.confirmed, 'on', on, session.today(), { ago: DISPOSED_DAYS });
    const { went, name, receipt, note, by: initials } = input;
    const at = session.now();
    const endId = session.book.belongings.end({
      belongingId: found.id,
      went,
      name,
      receipt,
      on,
      note,
      at,
      by: initials,
    });
    return { id: found.id, endId };
  },
);

/**
 * Voids where a belonging went: it is in the shop again. @throws ProblemError `belonging.unknown`, `belonging.here`
 */
export const voidEnd = write(v.object({ id, reason: needed(300), by }), (session, input) => {
  const found = standing(session, input.id);
  if (found.end_id === null)
    throw new ProblemError('refused', 'belonging.here', { with: { kind: found.kind } });
  session.book.belongings.voidEnd(found.end_id, input.reason, session.now(), input.by);
  return { id: found.id };
});

function standing(session: Session, belongingId: number) {
  const found = session.book.belongings.get(belongingId);
  if (!found) throw new ProblemError('missing', 'belonging.unknown', { field: 'id' });
  if (found.void_by !== null)
    throw new ProblemError('conflict', 'belonging.voided', {
      with: { by: found.void_by, reason: found.void_reason ?? '' },
    });
  return found;
}

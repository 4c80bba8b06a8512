/** Moves a weight that was entered for the wrong animal or the wrong part. */
import * as v from 'valibot';
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { animalOf } from '../animal/closed.ts';
import { by, id, needed, confirmed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { partAt } from './part-at.ts';
import { readOf } from './read-weight.ts';
import { checkNothingOverdrawn, voidWeighing, weighAnimal, weighingOf } from './weigh.ts';

/**
 * Moves a weight to another animal, another part or both: voids the row and adds a new one with the same digits,
 * container and time. The new row refers to the old one (`corrects`). Moving it back undoes the move. Animal and part
 * default to those of the row. A weight in a batch is voided there and weighed in again.
 * @throws ProblemError `weighing.unknown`, `weighing.voided`, `move.in-batch`, `move.nowhere`, `weighing.used`,
 * `choice.part`, `animal.closed`, `animal.unknown`, and as for a new weight (`confirmed` applies to its questions)
 */
export const move = write(
  v.object({
    weighingId: id,
    animalId: v.optional(id),
    to: v.optional(partAt),
    reason: needed(300),
    confirmed,
    by,
  }),
  (session, input) => {
    const old = weighingOf(session, input.weighingId);
    if (old.batch_id !== null || old.animal_id === null)
      throw new ProblemError('refused', 'move.in-batch', { with: { batch: old.batch ?? '' } });
    const to: Place = input.to ?? { stage: old.stage, part: old.part, primal: old.primal };
    const target = animalOf(session, input.animalId ?? old.animal_id);
    if (target.id === old.animal_id && isSame(old, to))
      throw new ProblemError('refused', 'move.nowhere', { field: 'to', with: { ticket: target.ticket } });
    const packed = old.stage === 'packed';
    if (packed !== (to.stage === 'packed')) throw new ProblemError('invalid', 'choice.part', { field: 'to' });
    voidWeighing(session, old.id, input.reason, input.by);
    const weighed = weighAnimal(session, {
      animalId: target.id,
      ...to,
      product: old.product,
      count: old.count,
      typed: old.typed,
      source: old.source === 'import' ? 'typed' : old.source,
      place: old.place ?? '',
      note: old.note,
      confirmed: input.confirmed,
      by: input.by,
      corrects: old.id,
      read: readOf(old),
      moved: { at: old.at },
    });
    checkNothingOverdrawn(session, old);
    session.book.audit.note({
      record: 'weighing',
      recordId: weighed.weighingId,
      act: 'add',
      before: { weighingId: old.id, ticket: old.ticket, part: old.part },
      after: { weighingId: weighed.weighingId, ticket: target.ticket, part: to.part },
      reason: input.reason,
      at: session.now(),
      by: input.by,
    });
    return { ...weighed, ticket: target.ticket };
  },
);

type Place = Pick<WeighingRecord, 'stage' | 'part' | 'primal'>;

function isSame(old: WeighingRecord, { stage, part, primal }: Place): boolean {
  return old.stage === stage && old.part === part && old.primal === primal;
}

import * as v from 'valibot';
import { by, id } from '../input/input.ts';
import { ProblemError } from '../contract/problem.ts';
import { write } from '../session/procedure.ts';
import { readOf } from './read-weight.ts';
import { weighAnimal, weighBatch, weighingOf } from './weigh.ts';

/** Note of the restored weight in the history. */
const REASON = 'restored';

/**
 * Undoes the voiding of a weight: a new row with the same digits refers to the voided one; both stay readable. The
 * rules for a new weight apply, without confirmations.
 * @throws ProblemError `weighing.unknown`, `weighing.not-voided`, `weighing.replaced` (conflict: already corrected or
 * restored), and as for a new weight
 */
export const restore = write(v.object({ weighingId: id, by }), (session, input) => {
  const old = weighingOf(session, input.weighingId);
  if (old.void_at === null) throw new ProblemError('conflict', 'weighing.not-voided');
  if (session.book.weighings.isCorrected(old.id)) throw new ProblemError('conflict', 'weighing.replaced');
  const same = {
    stage: old.stage,
    part: old.part,
    product: old.product,
    count: old.count,
    typed: old.typed,
    read: readOf(old),
    source: old.source === 'import' ? ('typed' as const) : old.source,
    place: old.place ?? '',
    note: old.note,
    confirmed: true,
    by: input.by,
    corrects: old.id,
  };
  if (old.batch_id !== null)
    return weighBatch(session, {
      ...same,
      batchId: old.batch_id,
      animalId: old.animal_id,
      fatLotId: old.fat_lot_id,
      reason: REASON,
    });
  if (old.animal_id === null) throw new ProblemError('broken', 'weighing.of-nothing');
  return weighAnimal(session, { ...same, animalId: old.animal_id, primal: old.primal });
});

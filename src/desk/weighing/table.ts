import * as v from 'valibot';
import { refuseHeldOut } from '../animal/hold-rules.ts';
import { keepingReach } from '../animal/keep-reach.ts';
import { by, id, needed, confirmed, text, typed } from '../input/input.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import { readOf, readWeight } from './read-weight.ts';
import { checkNothingOverdrawn, voidWeighing, weighAnimal, weighBatch, weighingOf } from './weigh.ts';
import { isWeighedAt, part, primal, stage } from './part-at.ts';

export const count = v.pipe(
  v.number('count.range'),
  v.integer('count.range'),
  v.minValue(1, 'count.range'),
  v.maxValue(10_000, 'count.range'),
);

/** How the number was entered. */
export const source = v.optional(v.picklist(['typed', 'scale', 'practice'], 'choice.source'), 'typed');
/** Place of packages in the freezer. */
export const freezerPlace = text(40);

/** Saves one weight of an animal. */
export const weigh = write(
  v.object({
    animalId: id,
    stage,
    part,
    primal,
    product: v.optional(v.nullable(needed(60)), null),
    count: v.optional(v.nullable(count), null),
    typed,
    tareTyped: text(60),
    source,
    place: freezerPlace,
    note: text(500),
    confirmed,
    by,
  }),
  (session, input) => {
    if (!isWeighedAt(input.stage, input.part))
      throw new ProblemError('invalid', 'choice.part', { field: 'part' });
    if (input.stage !== 'packed' && (input.product !== null || input.count !== null || input.place !== ''))
      throw new ProblemError('invalid', 'input.invalid', { field: 'product' });
    return weighAnimal(session, input);
  },
);

/**
 * Corrects a weight: a new row voids the old one, which stays readable. The container stays as weighed, in its unit,
 * unless another one is typed.
 * @throws ProblemError `weighing.unknown`, `weighing.voided`, `animal.closed`, `batch.done`, and as for a new weight
 */
export const correct = write(
  v.object({ weighingId: id, typed, tareTyped: v.optional(typed), source, reason: text(300), confirmed, by }),
  (session, input) => {
    const old = voidWeighing(session, input.weighingId, input.reason || 'corrected', input.by);
    const isSameTare = input.tareTyped === undefined || input.tareTyped.trim() === old.tare_typed;
    const same = {
      stage: old.stage,
      part: old.part,
      product: old.product,
      count: old.count,
      typed: input.typed,
      read: readWeight(session, input, isSameTare ? readOf(old).tare : undefined),
      source: input.source,
      place: old.place ?? '',
      note: old.note,
      confirmed: input.confirmed,
      by: input.by,
      corrects: old.id,
    };
    if (old.batch_id !== null) {
      return weighBatch(session, {
        ...same,
        batchId: old.batch_id,
        animalId: old.animal_id,
        fatLotId: old.fat_lot_id,
        reason: input.reason,
      });
    }
    if (old.animal_id === null) throw new ProblemError('broken', 'weighing.of-nothing');
    const weighed = weighAnimal(session, { ...same, animalId: old.animal_id, primal: old.primal });
    checkNothingOverdrawn(session, old);
    return weighed;
  },
);

/**
 * Voids a weight, with a reason. It stays visible, struck through.
 * @throws ProblemError `weighing.unknown`, `weighing.voided`, `weighing.used`, `batch.held-in`, `batch.reached-out`,
 * `animal.closed`, `batch.done`
 */
const voidOne = write(v.object({ weighingId: id, reason: needed(300), by }), (session, input) => {
  const weight = weighingOf(session, input.weighingId);
  refuseHeldOut(session, weight);
  const old = keepingReach(session, weight, () =>
    voidWeighing(session, input.weighingId, input.reason, input.by),
  );
  if (old.batch_id === null) checkNothingOverdrawn(session, old);
  return { weighingId: old.id };
});
export { voidOne as void };

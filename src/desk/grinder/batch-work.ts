/** Work on one batch: weighing in, passes, fat tests, packing, finishing. */
import * as v from 'valibot';
import { checkMassBalance, massOf } from '../animal/batch-mass.ts';
import { batchOf, openBatchOf } from '../animal/closed.ts';
import { refuseAffectedBatch, refuseHeldInBatch } from '../animal/hold-rules.ts';
import { by, id, needed, confirmed, text, typed } from '../input/input.ts';
import { refusePooledInBatch } from './pooling.ts';
import { write } from '../session/procedure.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { count, freezerPlace, source } from '../weighing/table.ts';
import { parseTemperature } from '../input/temperature.ts';
import { weighBatch } from '../weighing/weigh.ts';

/** Weighs trim or fat into a batch. */
export const weighIn = write(
  v.object({
    batchId: id,
    animalId: v.optional(v.nullable(id), null),
    fatLotId: v.optional(v.nullable(id), null),
    part: v.picklist(['trim', 'fat saved', 'fat added'], 'choice.part'),
    typed,
    tareTyped: text(60),
    source,
    confirmed,
    by,
  }),
  (session, input) => {
    const batch = openBatchOf(session, input.batchId);
    const { animalId, fatLotId, part } = sourceOf(session, input);
    const animals = session.book.batches.animals(batch.id);
    if (animalId !== null && !animals.some((animal) => animal.id === animalId))
      throw new ProblemError('refused', 'batch.not-in', { field: 'animalId', with: { batch: batch.name } });
    refuseHeldInBatch(session, batch.id, animalId);
    refuseAffectedBatch(session, batch);
    refusePooledInBatch(session, batch.id, animalId);
    return weighBatch(session, { ...input, animalId, fatLotId, part, stage: 'grinder' });
  },
);

/**
 * Weighs packages. @throws ProblemError `batch.done`, `batch.nothing-in`, `batch.too-much-out` (refused),
 * `batch.more-out` (conflict: pass `confirmed` and a `reason`), and as `weighBatch`
 */
export const pack = write(
  v.object({
    batchId: id,
    product: needed(60),
    count,
    typed,
    tareTyped: text(60),
    source,
    place: freezerPlace,
    /** Why more comes out than went in. */
    reason: text(300),
    confirmed,
    by,
  }),
  (session, input) =>
    weighBatch(session, {
      ...input,
      animalId: null,
      fatLotId: null,
      part: 'package',
      stage: 'packed',
      note: input.reason,
    }),
);

export const pass = write(
  v.object({ batchId: id, plate: needed(40), tempTyped: text(20), by }),
  (session, input) => {
    const batch = openBatchOf(session, input.batchId);
    const celsius =
      input.tempTyped === ''
        ? null
        : parseTemperature(input.tempTyped, session.settings.unit === 'lb' ? 'F' : 'C');
    const number = session.book.batches.passes(batch.id).length + 1;
    const tenthsC = celsius === null ? null : Math.round(celsius * 10);
    return {
      id: session.book.batches.addPass({
        batchId: batch.id,
        pass: number,
        plate: input.plate,
        typed: input.tempTyped || null,
        tenthsC,
        at: session.now(),
        by: input.by,
      }),
    };
  },
);

/**
 * A fat test of the finished grind, in percent as the tester shows it. The fat model learns from it once the batch is
 * finished.
 */
export const fatTest = write(
  v.object({
    batchId: id,
    percent: v.pipe(v.number('fat.range'), v.minValue(0, 'fat.range'), v.maxValue(100, 'fat.range')),
    method: needed(80),
    by,
  }),
  (session, input) => {
    const batch = batchOf(session, input.batchId);
    const tested = session.book.batches.addTest({
      batchId: batch.id,
      fat: input.percent / 100,
      sd: TEST_SD,
      method: input.method,
      at: session.now(),
      by: input.by,
    });
    return { id: tested };
  },
);
/** SD of a quick fat test: about one percentage point. Common practice, no source. */
const TEST_SD = 0.01;

/**
 * Finishes a batch: its weights are closed until it is reopened.
 * @throws ProblemError `batch.done`, `batch.nothing-out`, and as `checkMassBalance`
 */
export const finish = write(v.object({ batchId: id, reason: text(300), confirmed, by }), (session, input) => {
  const batch = openBatchOf(session, input.batchId);
  if (massOf(session, batch.id).outGrams === 0)
    throw new ProblemError('refused', 'batch.nothing-out', { with: { batch: batch.name } });
  checkMassBalance(session, batch, input);
  session.book.batches.setState(batch.id, 'done');
  session.book.audit.note({
    record: 'batch',
    recordId: batch.id,
    act: 'change',
    before: { state: 'open' },
    after: { state: 'done' },
    reason: input.reason,
    at: session.now(),
    by: input.by,
  });
  return { id: batch.id };
});

/** Own fat is identified by its animal, bought fat by its lot; both draw from a lot. */
function sourceOf(
  session: Session,
  input: { animalId: number | null; fatLotId: number | null; part: string },
) {
  if (input.part === 'trim') {
    if (input.animalId === null) throw new ProblemError('invalid', 'id.needed', { field: 'animalId' });
    return { animalId: input.animalId, fatLotId: null, part: input.part };
  }
  const lot =
    input.fatLotId === null
      ? session.book.fat.ofAnimal(input.animalId ?? 0)
      : session.book.fat.get(input.fatLotId);
  if (!lot) throw new ProblemError('missing', 'fat.lot-unknown', { field: 'fatLotId' });
  return {
    animalId: lot.animal_id,
    fatLotId: lot.id,
    part: lot.animal_id === null ? 'fat added' : 'fat saved',
  };
}

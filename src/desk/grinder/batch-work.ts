/** One batch at work: weighing in, passes through the plate, fat tests, packing, finishing. */
import * as v from 'valibot';
import { checkMass, massOf } from '../animal/batch-mass.ts';
import { batchOf, openBatchOf } from '../animal/closed.ts';
import { refuseHeldInBatch } from '../animal/hold-rules.ts';
import { by, id, needed, sure, text, typed } from '../input/input.ts';
import { refusePooledInBatch } from './pooling.ts';
import { write } from '../session/procedure.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';
import { count, freezerPlace, source } from '../weighing/table.ts';
import { parseTemperature } from '../input/temperature.ts';
import { weighBatch } from '../weighing/weigh.ts';

/** What was really weighed in. */
export const weighIn = write(
  v.object({
    batchId: id,
    animalId: v.optional(v.nullable(id), null),
    fatLotId: v.optional(v.nullable(id), null),
    part: v.picklist(['trim', 'fat saved', 'fat added'], 'choice.part'),
    typed,
    tareTyped: text(60),
    source,
    sure,
    by,
  }),
  (room, input) => {
    const batch = openBatchOf(room, input.batchId);
    const { animalId, fatLotId, part } = sourceOf(room, input);
    const animals = room.book.batches.animals(batch.id);
    if (animalId !== null && !animals.some((animal) => animal.id === animalId))
      throw new Trouble('refused', 'batch.not-in', { field: 'animalId', with: { batch: batch.name } });
    refuseHeldInBatch(room, batch.id, animalId);
    refusePooledInBatch(room, batch.id, animalId);
    return weighBatch(room, { ...input, animalId, fatLotId, part, stage: 'grinder' });
  },
);

/**
 * Packages that came out. @throws Trouble `batch.done`, `batch.nothing-in`, `batch.too-much-out` (refused), `batch.more-out`
 * (conflict: pass `sure` and a `reason`), and as `weighBatch`
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
    sure,
    by,
  }),
  (room, input) =>
    weighBatch(room, {
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
  (room, input) => {
    const batch = openBatchOf(room, input.batchId);
    const celsius =
      input.tempTyped === ''
        ? null
        : parseTemperature(input.tempTyped, room.settings.unit === 'lb' ? 'F' : 'C');
    const number = room.book.batches.passes(batch.id).length + 1;
    const tenthsC = celsius === null ? null : Math.round(celsius * 10);
    return {
      id: room.book.batches.addPass({
        batchId: batch.id,
        pass: number,
        plate: input.plate,
        typed: input.tempTyped || null,
        tenthsC,
        at: room.now(),
        by: input.by,
      }),
    };
  },
);

/** A fat test of the finished grind, in percent as the tester shows it. It teaches once the batch is finished. */
export const fatTest = write(
  v.object({
    batchId: id,
    percent: v.pipe(v.number('fat.range'), v.minValue(0, 'fat.range'), v.maxValue(100, 'fat.range')),
    method: needed(80),
    by,
  }),
  (room, input) => {
    const batch = batchOf(room, input.batchId);
    const tested = room.book.batches.addTest({
      batchId: batch.id,
      fat: input.percent / 100,
      sd: TEST_SD,
      method: input.method,
      at: room.now(),
      by: input.by,
    });
    return { id: tested };
  },
);
/** Spread of a quick fat test: about one percentage point. Common practice, no source. */
const TEST_SD = 0.01;

/**
 * Closes a batch: its weights stay as they are until it is opened again. @throws Trouble `batch.done`, `batch.nothing-out`, and
 * as `checkMass`
 */
export const finish = write(v.object({ batchId: id, reason: text(300), sure, by }), (room, input) => {
  const batch = openBatchOf(room, input.batchId);
  if (massOf(room, batch.id).outGrams === 0)
    throw new Trouble('refused', 'batch.nothing-out', { with: { batch: batch.name } });
  checkMass(room, batch, input);
  room.book.batches.setState(batch.id, 'done');
  room.book.audit.note({
    record: 'batch',
    recordId: batch.id,
    act: 'change',
    before: { state: 'open' },
    after: { state: 'done' },
    reason: input.reason,
    at: room.now(),
    by: input.by,
  });
  return { id: batch.id };
});

/** Own fat is known by its animal, bought fat by its lot; either way the lot is charged. */
function sourceOf(room: DeskRoom, input: { animalId: number | null; fatLotId: number | null; part: string }) {
  if (input.part === 'trim') {
    if (input.animalId === null) throw new Trouble('invalid', 'id.needed', { field: 'animalId' });
    return { animalId: input.animalId, fatLotId: null, part: input.part };
  }
  const lot =
    input.fatLotId === null ? room.book.fat.ofAnimal(input.animalId ?? 0) : room.book.fat.get(input.fatLotId);
  if (!lot) throw new Trouble('missing', 'fat.lot-unknown', { field: 'fatLotId' });
  return {
    animalId: lot.animal_id,
    fatLotId: lot.id,
    part: lot.animal_id === null ? 'fat added' : 'fat saved',
  };
}

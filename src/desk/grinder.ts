import * as v from 'valibot';
import type { BatchRecord } from '../book/batches.ts';
import { batchOf, batchPage, fatIn } from './batch-page.ts';
import { leftOut, trimCrumb, trimWaiting } from './blend-sources.ts';
import { CRUMB_GRAMS } from './fat-moves.ts';
import { lotRow } from './fat.ts';
import { planGrind, type StoredPlan } from './grind-plan.ts';
import { grindWants } from './grind-wants.ts';
import { instructionsOf } from './animal-page.ts';
import { heldAs, refuseHeldInBatch, refuseHeldPool } from './hold-rules.ts';
import { by, id, needed, sure, targetFat, text, typed } from './input.ts';
import { host, read, write } from './procedure.ts';
import { Trouble } from './problem.ts';
import type { DeskRoom } from './room.ts';
import type { BatchLine, GrinderLook, GrindPlan } from './shapes.ts';
import { count, freezerPlace, source } from './table.ts';
import { parseTemperature } from './temperature.ts';
import { animalOf, weighBatch } from './weigh.ts';

const asked = {
  animals: v.pipe(
    v.array(
      v.object({ id, grams: v.optional(v.pipe(v.number('reading.empty'), v.minValue(1, 'reading.zero'))) }),
    ),
    v.minLength(1, 'trim.choose'),
    v.maxLength(60, 'trim.choose'),
  ),
  fat: needed(40),
  lotIds: v.optional(v.pipe(v.array(id), v.minLength(1, 'fat.choose'))),
  targetFat,
};
const RECENT = 12;

/** Whose trim waits, open and newest batches, and the fat on hand. */
export const look = read(v.object({}), (room): GrinderLook => ({
  waiting: trimWaiting(room).map((row) => {
    const species = room.species.of(row.species);
    return {
      id: row.id,
      ticket: row.ticket,
      hunter: row.hunter,
      speciesName: species.name,
      trimLeftGrams: row.trim_left,
      ownFatLeftGrams: Math.max(0, room.book.fat.ofAnimal(row.id)?.left_grams ?? 0),
      trimFat: { ...room.fats.now.trim(row) },
      wants: grindWants(
        instructionsOf(room, row.id),
        room.book.sums.trimInto(row.id),
        row.trim_left,
        trimCrumb(room),
      ),
      refusesPooling: row.refuses_pooling === 1,
      hold: heldAs(room.book.animals.hold(row.id)),
    };
  }),
  open: room.book.batches.open().map((batch) => batchLine(room, batch)),
  recent: room.book.batches.recent(RECENT).map((batch) => batchLine(room, batch)),
  fat: room.book.fat
    .all()
    .filter(({ left_grams }) => left_grams > CRUMB_GRAMS)
    .map((lot) => lotRow(room, lot)),
}));

export const open = read(v.object({ id }), (room, input) => batchPage(room, batchOf(room, input.id)));

/** What to weigh. Fat past its use-by is left out of it, and said, unless its lot is named. */
export const plan = read(v.object(asked), async (room, input): Promise<GrindPlan> => ({
  ...(await planGrind(room, input)),
  leftOut: leftOut(room, input),
}));

/** Begins a batch and keeps its plan. The solver is asked first; the writing is one transaction. */
export const start = host(v.object({ ...asked, product: needed(60), by }), async (room, input) => {
  refusePooled(
    room,
    input.animals.map((one) => one.id),
  );
  refuseHeldPool(
    room,
    input.animals.map((one) => animalOf(room, one.id)),
  );
  const answer = await planGrind(room, input);
  const parts = 'parts' in answer ? answer.parts : answer.nearest.parts;
  return room.book.change(() =>
    room.book.batches.add({
      season: room.season(),
      product: input.product,
      targetFat: input.targetFat,
      plan: {
        kind: answer.kind,
        parts,
        fat: 'fat' in answer ? answer.fat : answer.nearest.fat,
      } satisfies StoredPlan,
      animalIds: input.animals.map((one) => one.id),
      startedOn: room.today(),
      at: room.now(),
      by: input.by,
    }),
  );
});

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
    const batch = needOpen(room, input.batchId);
    const { animalId, fatLotId, part } = sourceOf(room, input);
    const animals = room.book.batches.animals(batch.id);
    if (animalId !== null && !animals.some((animal) => animal.id === animalId))
      throw new Trouble('refused', 'batch.not-in', { field: 'animalId', with: { batch: batch.name } });
    refuseHeldInBatch(room, batch.id, animalId);
    return weighBatch(room, { ...input, animalId, fatLotId, part, stage: 'grinder' });
  },
);

export const pack = write(
  v.object({
    batchId: id,
    product: needed(60),
    count,
    typed,
    tareTyped: text(60),
    source,
    place: freezerPlace,
    sure,
    by,
  }),
  (room, input) => {
    const batch = batchOf(room, input.batchId);
    const page = batchPage(room, batch);
    const weighed = weighBatch(room, {
      ...input,
      animalId: null,
      fatLotId: null,
      part: 'package',
      stage: 'packed',
    });
    if (page.inGrams === 0) throw new Trouble('refused', 'batch.nothing-in', { with: { batch: batch.name } });
    if (page.outGrams + weighed.grams > page.inGrams * MOST_OUT)
      throw new Trouble('refused', 'batch.more-out', {
        field: 'typed',
        with: { outGrams: page.outGrams + weighed.grams, inGrams: page.inGrams },
      });
    return weighed;
  },
);
/** More than this of what went in cannot come out: water is not added here. */
const MOST_OUT = 1.02;

export const pass = write(
  v.object({ batchId: id, plate: needed(40), tempTyped: text(20), by }),
  (room, input) => {
    const batch = batchOf(room, input.batchId);
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
    room.relearnFat();
    return { id: tested };
  },
);
/** Spread of a quick fat test: about one percentage point. Common practice, no source. */
const TEST_SD = 0.01;

export const finish = write(v.object({ batchId: id, by }), (room, input) => {
  const batch = needOpen(room, input.batchId);
  const { outGrams } = batchPage(room, batch);
  if (outGrams === 0) throw new Trouble('refused', 'batch.nothing-out', { with: { batch: batch.name } });
  room.book.batches.finish(batch.id);
  room.relearn();
  return { id: batch.id };
});

function needOpen(room: DeskRoom, batchId: number): BatchRecord {
  const batch = batchOf(room, batchId);
  if (batch.state !== 'open') throw new Trouble('refused', 'batch.done', { with: { batch: batch.name } });
  return batch;
}

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

function refusePooled(room: DeskRoom, ids: readonly number[]): void {
  if (new Set(ids).size !== ids.length) throw new Trouble('invalid', 'trim.twice', { field: 'animals' });
  if (ids.length < 2) return;
  const refusing = trimWaiting(room).find((row) => ids.includes(row.id) && row.refuses_pooling === 1);
  if (refusing)
    throw new Trouble('refused', 'batch.no-pooling', {
      field: 'animals',
      with: { hunter: refusing.hunter, ticket: refusing.ticket },
    });
}

function batchLine(room: DeskRoom, batch: BatchRecord): BatchLine {
  const { grams, fat } = fatIn(room, batch.id);
  return {
    id: batch.id,
    name: batch.name,
    product: batch.product,
    tickets: room.book.batches.animals(batch.id).map(({ ticket }) => ticket),
    state: batch.state,
    targetFat: batch.target_fat,
    fat,
    inGrams: grams,
    at: batch.at,
  };
}

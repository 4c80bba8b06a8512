/** Writing a weight: read what was typed, check that it can be, keep it, and move the fat that it stands for. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { NewWeighing, WeighingRecord } from '../../book/records/weighings.ts';
import { parseReading, readingGrams, type Reading } from '../../core/values/reading.ts';
import { checkMass } from '../animal/batch-mass.ts';
import { openAnimalOf, openBatchOf, refuseClosedWeight } from '../animal/closed.ts';
import { CRUMB_GRAMS, moveFat, returnFat, saveOwnFat } from '../animal/fat-moves.ts';
import { refuseHeldWeight } from '../animal/hold-rules.ts';
import { checkPrimalCode } from '../animal/primal-check.ts';
import { Trouble } from '../contract/problem.ts';
import type { DeskRoom } from '../session/room.ts';
import type { WeighStage } from '../contract/contract.ts';
import { moveOn } from '../animal/stage.ts';
import { checkAnimalWeight } from './weighing-check.ts';

export interface WeighAnimal {
  animalId: number;
  stage: WeighStage;
  part: string;
  primal?: string | null;
  product?: string | null;
  count?: number | null;
  typed: string;
  tareTyped?: string;
  source?: 'typed' | 'scale' | 'practice';
  /** Freezer place of packages. */
  place?: string;
  note?: string;
  sure: boolean;
  by: string;
  corrects?: number;
}

export interface WeighBatch extends Omit<WeighAnimal, 'animalId' | 'primal'> {
  batchId: number;
  animalId: number | null;
  fatLotId: number | null;
  /** Why more comes out than went in, or why a weight is corrected. */
  reason?: string;
}

export interface Weighed {
  weighingId: number;
  grams: number;
}

/** Weights of one animal or one batch that stand: many times what a moose in small totes needs. */
const MOST_WEIGHTS = 300;
/** Those that were voided or corrected are read with them. */
const MOST_WRITTEN = 2000;
/** One tote weighed twice shows the same figure within moments. */
const SAME_AGAIN_SECONDS = 20;

/**
 * Keeps one weight of an animal. @throws CoreProblem `reading.*`; Trouble `weight.more-than-animal`, `cut.held`,
 * `cut.positive`, `primal.not-brought` (refused), `primal.needed`, `primal.unknown` (invalid),
 * `weight.unlikely`, `weight.over`, `weight.same-again`, `weight.hung-again` (conflict: pass `sure` to keep it all the same)
 */
export function weighAnimal(room: DeskRoom, input: WeighAnimal): Weighed {
  const animal = openAnimalOf(room, input.animalId);
  // A weight already in the book may be put right while a hold lasts.
  if (input.corrects === undefined) refuseHeldWeight(room, animal, input.stage);
  if (input.stage === 'packed' && (!input.product || !input.count))
    throw new Trouble('invalid', input.product ? 'count.range' : 'text.needed', {
      field: input.product ? 'count' : 'product',
    });
  checkPrimalCode(room, animal, input);
  const read = readWeight(room, input);
  checkAnimalWeight(room, animal, { ...input, ...read });
  const weighed = keep(room, { ...input, ...read, animalId: animal.id, batchId: null, fatLotId: null });
  if (input.stage === 'cut') {
    if (input.part === 'fat saved') saveOwnFat(room, animal, weighed, input);
    if (animal.stage === 'hanging') moveOn(room, animal, 'cutting', input.by);
  }
  return weighed;
}

/**
 * Keeps one weight of a batch: trim or fat going in, or packages coming out. Nothing goes in that was not weighed
 * in before. @throws CoreProblem `reading.*`; Trouble `batch.done`, `animal.closed`, `trim.not-enough`, `fat.not-enough`
 * (refused), `weight.same-again`; of packages those of `checkMass`
 */
export function weighBatch(room: DeskRoom, input: WeighBatch): Weighed {
  const batch = openBatchOf(room, input.batchId);
  const animal = input.animalId === null ? null : openAnimalOf(room, input.animalId);
  const read = readWeight(room, input);
  if (input.part === 'trim' && animal) checkTrimLeft(room, animal, read.grams);
  const weighed = keep(room, { ...input, ...read, primal: null });
  if (input.stage === 'packed') checkMass(room, batch, { ...input, reason: input.reason ?? '' });
  if (input.fatLotId !== null) moveFat(room, input.fatLotId, weighed, input);
  return weighed;
}

/**
 * Voids a weight with a reason and gives back the fat that it had moved.
 * @throws Trouble `weighing.voided`, `animal.closed`, `batch.done`
 */
export function voidWeighing(room: DeskRoom, id: number, reason: string, by: string): WeighingRecord {
  const old = weighingOf(room, id);
  if (old.void_at !== null)
    throw new Trouble('conflict', 'weighing.voided', {
      with: { by: old.void_by ?? '', reason: old.void_reason ?? '' },
    });
  refuseClosedWeight(room, old);
  room.book.weighings.void(id, reason, room.now(), by);
  returnFat(room, id, by);
  room.book.audit.note({
    record: 'weighing',
    recordId: id,
    act: 'void',
    before: { typed: old.typed, grams: old.grams },
    reason,
    at: room.now(),
    by,
  });
  return old;
}

/** Refuses to leave less trim or fat on the book than the grinder already took. @throws Trouble `weighing.used` */
export function checkNothingOverdrawn(room: DeskRoom, old: WeighingRecord): void {
  if (old.animal_id === null) return;
  const sums = room.book.weighings.sums(old.animal_id);
  const trimShort = (sums?.trim_ground ?? 0) - (sums?.trim ?? 0);
  const fatShort = -(room.book.fat.ofAnimal(old.animal_id)?.left_grams ?? 0);
  const short = Math.max(old.part === 'trim' ? trimShort : 0, old.part === 'fat saved' ? fatShort : 0);
  if (short > CRUMB_GRAMS)
    throw new Trouble('refused', 'weighing.used', { with: { grams: short, part: old.part } });
}

/** @throws Trouble `weighing.unknown` */
export function weighingOf(room: DeskRoom, id: number): WeighingRecord {
  const found = room.book.weighings.get(id);
  if (!found) throw new Trouble('missing', 'weighing.unknown', { field: 'weighingId' });
  return found;
}

function checkTrimLeft(room: DeskRoom, animal: AnimalRow, grams: number): void {
  const sums = room.book.weighings.sums(animal.id);
  const left = (sums?.trim ?? 0) - (sums?.trim_ground ?? 0);
  if (grams > left + CRUMB_GRAMS)
    throw new Trouble('refused', 'trim.not-enough', {
      field: 'typed',
      with: { grams, leftGrams: Math.max(0, left), ticket: animal.ticket },
    });
}

interface Read {
  reading: Reading;
  tare: Reading | null;
  /** Net of tare. */
  grams: number;
}

function readWeight(room: DeskRoom, input: { typed: string; tareTyped?: string }): Read {
  const reading = parseReading(input.typed, room.settings.unit);
  const tare = input.tareTyped?.trim() ? parseReading(input.tareTyped, room.settings.unit) : null;
  const grams = readingGrams(reading) - (tare ? readingGrams(tare) : 0);
  if (!(grams > 0))
    throw new Trouble('invalid', 'reading.tare', {
      field: 'tareTyped',
      with: { typed: input.typed, tare: tare?.typed ?? '' },
    });
  return { reading, tare, grams };
}

function keep(
  room: DeskRoom,
  input: Omit<WeighBatch, 'batchId'> & Read & { batchId: number | null; primal?: string | null },
): Weighed {
  const { animalId, batchId, fatLotId, stage, part, grams, corrects = null } = input;
  const primal = input.primal ?? null;
  if (animalId !== null) refuseTooMany(room, 'animal', animalId);
  if (batchId !== null) refuseTooMany(room, 'batch', batchId);
  if (!input.sure && corrects === null)
    checkSameAgain(room, { animalId, batchId, stage, part, primal, grams });
  const row: NewWeighing = {
    animalId, batchId, fatLotId, stage, part, grams, corrects,
    primal,
    product: input.product ?? null,
    count: input.count ?? null,
    place: input.place?.trim() || null,
    reading: input.reading,
    tare: input.tare,
    source: input.source ?? 'typed',
    note: input.note ?? '',
    at: room.now(),
    by: input.by,
  }; // prettier-ignore
  return { weighingId: room.book.weighings.add(row), grams };
}

/** @throws Trouble `weights.too-many` */
function refuseTooMany(room: DeskRoom, of: 'animal' | 'batch', id: number): void {
  const { all, standing } = room.book.weighings.count(of, id);
  if (standing >= MOST_WEIGHTS || all >= MOST_WRITTEN)
    throw new Trouble('refused', 'weights.too-many', { with: { of, count: standing } });
}

function checkSameAgain(
  room: DeskRoom,
  same: Parameters<DeskRoom['book']['weighings']['lastSame']>[0],
): void {
  const last = room.book.weighings.lastSame(same);
  if (last === undefined) return;
  const seconds = Math.round((Date.parse(room.now()) - Date.parse(last)) / 1000);
  if (seconds >= 0 && seconds <= SAME_AGAIN_SECONDS)
    throw new Trouble('conflict', 'weight.same-again', {
      field: 'typed',
      with: { seconds, grams: same.grams },
    });
}

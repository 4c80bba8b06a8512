/** Saves a weight: parses the text, checks plausibility, writes the row, and updates the fat on hand. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { NewWeighing, WeighingRecord } from '../../book/records/weighings.ts';
import { worksOn } from '../animal/end-unprocessed.ts';
import { checkMassBalance } from '../animal/batch-mass.ts';
import { openAnimalOf, openBatchOf, refuseClosedWeight } from '../animal/closed.ts';
import { ROUNDING_TOLERANCE_GRAMS, moveFat, returnFat, saveOwnFat } from '../animal/fat-moves.ts';
import { refuseHeldWeight } from '../animal/hold-rules.ts';
import { checkPrimalCode } from '../animal/primal-check.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import type { WeighStage } from '../contract/contract.ts';
import { moveOn } from '../animal/stage.ts';
import { readWeight, type Read } from './read-weight.ts';
import { checkAnimalWeight } from './weighing-check.ts';
import type { WeighSource } from '../../trade/weighing.ts';

interface WeighAnimal {
  animalId: number;
  stage: WeighStage;
  part: string;
  primal?: string | null;
  product?: string | null;
  count?: number | null;
  typed: string;
  tareTyped?: string;
  source?: Exclude<WeighSource, 'import'>;
  /** Freezer place of packages. */
  place?: string;
  note?: string;
  confirmed: boolean;
  by: string;
  corrects?: number;
  /** The reading of a stored weight, in its own unit; it is not parsed again. */
  read?: Read;
  /** Time of weighing of a weight that is moved here. */
  moved?: { at: string };
}

interface WeighBatch extends Omit<WeighAnimal, 'animalId' | 'primal' | 'moved'> {
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

/** Active weights of one animal or batch: many times what a moose in small totes needs. */
const MAX_WEIGHTS = 300;
/** Voided and corrected weights count too, since all are loaded together. */
const MAX_WRITTEN = 2000;
/** A tote weighed twice by mistake shows the same figure within this time. */
const SAME_AGAIN_SECONDS = 20;

/**
 * Saves one weight of an animal.
 * @throws ValidationError `reading.*`; ProblemError `weight.more-than-animal`, `cut.held`, `cut.positive`,
 * `primal.not-brought` (refused), `primal.needed`, `primal.unknown` (invalid), `weight.unlikely`, `weight.over`,
 * `weight.same-again`, `weight.hung-again` (conflict: pass `confirmed` to save anyway)
 */
export function weighAnimal(session: Session, input: WeighAnimal): Weighed {
  const animal = openAnimalOf(session, input.animalId);
  // A stored weight may be corrected during a hold.
  if (input.corrects === undefined) refuseHeldWeight(session, animal, input.stage);
  if (input.stage === 'packed' && (!input.product || !input.count))
    throw new ProblemError('invalid', input.product ? 'count.range' : 'text.needed', {
      field: input.product ? 'count' : 'product',
    });
  checkPrimalCode(session, animal, input);
  const read = input.read ?? readWeight(session, input);
  // A moved weight corrects a row elsewhere, so here it adds to the sum.
  const { corrects, ...added } = input;
  checkAnimalWeight(session, animal, { ...(input.moved || corrects === undefined ? added : input), ...read });
  const weighed = saveWeighing(session, {
    ...input,
    ...read,
    animalId: animal.id,
    batchId: null,
    fatLotId: null,
    at: input.moved?.at,
  });
  if (corrects === undefined || input.moved) worksOn(session, animal, input.stage, input.by);
  if (input.stage === 'cut') {
    if (input.part === 'fat saved') saveOwnFat(session, animal, weighed, input);
    if (animal.stage === 'hanging') moveOn(session, animal, 'cutting', input.by);
  }
  return weighed;
}

/**
 * Saves one weight of a batch: trim or fat going in, or packages coming out. Only weighed trim and fat can go in.
 * @throws ValidationError `reading.*`; ProblemError `batch.done`, `animal.closed`, `trim.not-enough`,
 * `fat.not-enough` (refused), `weight.same-again`; for packages those of `checkMassBalance`
 */
export function weighBatch(session: Session, input: WeighBatch): Weighed {
  const batch = openBatchOf(session, input.batchId);
  const animal = input.animalId === null ? null : openAnimalOf(session, input.animalId);
  const read = input.read ?? readWeight(session, input);
  if (input.part === 'trim' && animal) checkTrimLeft(session, animal, read.grams);
  const weighed = saveWeighing(session, { ...input, ...read, primal: null });
  if (animal && input.corrects === undefined) worksOn(session, animal, input.stage, input.by);
  if (input.stage === 'packed') checkMassBalance(session, batch, { ...input, reason: input.reason ?? '' });
  if (input.fatLotId !== null) moveFat(session, input.fatLotId, weighed, input);
  return weighed;
}

/**
 * Voids a weight with a reason and reverses its fat movement.
 * @throws ProblemError `weighing.voided`, `animal.closed`, `batch.done`
 */
export function voidWeighing(session: Session, id: number, reason: string, by: string): WeighingRecord {
  const old = weighingOf(session, id);
  if (old.void_at !== null)
    throw new ProblemError('conflict', 'weighing.voided', {
      with: { by: old.void_by ?? '', reason: old.void_reason ?? '' },
    });
  refuseClosedWeight(session, old);
  session.book.weighings.void(id, reason, session.now(), by);
  returnFat(session, id, by);
  session.book.audit.note({
    record: 'weighing',
    recordId: id,
    act: 'void',
    before: { typed: old.typed, grams: old.grams },
    reason,
    at: session.now(),
    by,
  });
  return old;
}

/**
 * Refuses a change that leaves less trim or fat than the grinder already took. @throws ProblemError `weighing.used`
 */
export function checkNothingOverdrawn(session: Session, old: WeighingRecord): void {
  if (old.animal_id === null) return;
  const sums = session.book.weighings.sums(old.animal_id);
  const trimShort = (sums?.trim_ground ?? 0) - (sums?.trim ?? 0);
  const fatShort = -(session.book.fat.ofAnimal(old.animal_id)?.left_grams ?? 0);
  const short = Math.max(old.part === 'trim' ? trimShort : 0, old.part === 'fat saved' ? fatShort : 0);
  if (short > ROUNDING_TOLERANCE_GRAMS)
    throw new ProblemError('refused', 'weighing.used', { with: { grams: short, part: old.part } });
}

/** @throws ProblemError `weighing.unknown` */
export function weighingOf(session: Session, id: number): WeighingRecord {
  const found = session.book.weighings.get(id);
  if (!found) throw new ProblemError('missing', 'weighing.unknown', { field: 'weighingId' });
  return found;
}

function checkTrimLeft(session: Session, animal: AnimalRow, grams: number): void {
  const sums = session.book.weighings.sums(animal.id);
  const left = (sums?.trim ?? 0) - (sums?.trim_ground ?? 0);
  if (grams > left + ROUNDING_TOLERANCE_GRAMS)
    throw new ProblemError('refused', 'trim.not-enough', {
      field: 'typed',
      with: { grams, leftGrams: Math.max(0, left), ticket: animal.ticket },
    });
}

function saveWeighing(
  session: Session,
  input: Omit<WeighBatch, 'batchId'> & Read & { batchId: number | null; primal?: string | null; at?: string },
): Weighed {
  const { animalId, batchId, fatLotId, stage, part, grams, corrects = null } = input;
  const primal = input.primal ?? null;
  if (animalId !== null) refuseTooMany(session, 'animal', animalId);
  if (batchId !== null) refuseTooMany(session, 'batch', batchId);
  if (!input.confirmed && corrects === null)
    checkSameAgain(session, { animalId, batchId, stage, part, primal, grams });
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
    at: input.at ?? session.now(),
    by: input.by,
  }; // prettier-ignore
  return { weighingId: session.book.weighings.add(row), grams };
}

/** @throws ProblemError `weights.too-many` */
function refuseTooMany(session: Session, of: 'animal' | 'batch', id: number): void {
  const { all, standing } = session.book.weighings.count(of, id);
  if (standing >= MAX_WEIGHTS || all >= MAX_WRITTEN)
    throw new ProblemError('refused', 'weights.too-many', { with: { of, count: standing } });
}

function checkSameAgain(
  session: Session,
  same: Parameters<Session['book']['weighings']['lastSame']>[0],
): void {
  const last = session.book.weighings.lastSame(same);
  if (last === undefined) return;
  const seconds = Math.round((Date.parse(session.now()) - Date.parse(last)) / 1000);
  if (seconds >= 0 && seconds <= SAME_AGAIN_SECONDS)
    throw new ProblemError('conflict', 'weight.same-again', {
      field: 'typed',
      with: { seconds, grams: same.grams },
    });
}

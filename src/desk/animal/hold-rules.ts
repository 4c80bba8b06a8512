/** What an animal on hold must not go through. Receiving and hanging weights are always free. */
import type { AnimalRow, HoldRow } from '../../book/records/animals.ts';
import type { WeighingRecord } from '../../book/records/weighings.ts';
import { affectedBatches, reachedBy } from './affected.ts';
import { ProblemError } from '../contract/problem.ts';
import type { BatchRecord } from '../../book/records/batches.ts';
import type { WaitsFor } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';

const UNDER_THE_KNIFE: readonly string[] = ['primal', 'cut', 'packed'];
const ORDER: readonly AnimalRow['stage'][] = ['hanging', 'cutting', 'packing', 'ready', 'released'];

/**
 * Refuses to cut, grind or pack an animal on hold, unless the shop's rule lets it be cut before the result. After a
 * positive result nothing of it is worked on any more, whatever the rule.
 * @throws ProblemError `cut.held`, `cut.positive`
 */
function refuseHeld(session: Session, animal: Pick<AnimalRow, 'id' | 'ticket'>): void {
  const hold = session.book.animals.hold(animal.id);
  if (!hold || (hold.positive === 0 && session.settings.cutWhileHeld)) return;
  throw new ProblemError('refused', hold.positive === 1 ? 'cut.positive' : 'cut.held', {
    with: { ticket: animal.ticket, reason: hold.reason, sample: hold.sample },
  });
}

/** As `refuseHeld`, for weights of parts and packages. @throws ProblemError `cut.held`, `cut.positive` */
export function refuseHeldWeight(
  session: Session,
  animal: Pick<AnimalRow, 'id' | 'ticket'>,
  stage: string,
): void {
  if (UNDER_THE_KNIFE.includes(stage)) refuseHeld(session, animal);
}

/** As `refuseHeld`, for a step on through the shop; a step back is free. @throws ProblemError `cut.held`, `cut.positive` */
export function refuseHeldStep(session: Session, animal: AnimalRow, to: AnimalRow['stage']): void {
  if (ORDER.indexOf(to) > ORDER.indexOf(animal.stage)) refuseHeld(session, animal);
}

/**
 * Keeps animals on hold out of pools: such an animal is ground by itself ("process carcasses individually": Michigan
 * State University Extension, Meat Processor Deer/Venison Processing Recommendations, 2022). That alone is not enough:
 * the grinder is cleaned after it (`grinder-traces.ts`).
 * @throws ProblemError `batch.held-alone`, and as `refuseHeld`
 */
export function refuseHeldPool(session: Session, animals: readonly Pick<AnimalRow, 'id' | 'ticket'>[]): void {
  for (const animal of animals) refuseHeld(session, animal);
  if (animals.length < 2) return;
  const held = animals.find(({ id }) => session.book.animals.hold(id));
  if (held)
    throw new ProblemError('refused', 'batch.held-alone', {
      field: 'animals',
      with: { ticket: held.ticket },
    });
}

/**
 * As `refuseHeldPool`, for a weight going into a batch that may have begun before the hold: what is held does not go
 * in with others, and nothing more goes in with what is held.
 * @throws ProblemError `batch.held-alone`, `cut.held`, `cut.positive`
 */
export function refuseHeldInBatch(session: Session, batchId: number, animalId: number | null): void {
  const planned = session.book.batches.animals(batchId);
  const weighed = session.book.weighings.ofBatch(batchId).filter(({ void_at }) => void_at === null);
  const held = animalId !== null && session.book.animals.hold(animalId) !== undefined;
  const together = planned.filter(
    ({ id }) => held || id === animalId || weighed.some(({ animal_id }) => animal_id === id),
  );
  refuseHeldPool(session, together);
}

/**
 * Refuses to take the weight of an animal out of a batch that was ground, while held meat lies in it, also alone: what went
 * through the plate stays in there, and only this weight keeps the others in the batch, and those after it in the grinder, from
 * going out. Packages that were taken back say as much as those that stand. A weight that was misread is corrected instead;
 * where the held animal was never in it, its hold ends or its result is corrected first. What a positive result reached
 * otherwise is kept by `keepingReach`.
 * @throws ProblemError `batch.held-in`
 */
export function refuseHeldOut(
  session: Session,
  { batch_id: batchId, animal_id: animalId, stage }: Pick<WeighingRecord, 'batch_id' | 'animal_id' | 'stage'>,
): void {
  if (batchId === null || animalId === null || stage !== 'grinder') return;
  const rows = session.book.weighings.ofBatch(batchId);
  if (!rows.some((row) => row.stage === 'packed') && session.book.batches.passes(batchId).length === 0)
    return;
  const goneIn = rows.filter((row) => row.stage === 'grinder' && row.void_at === null);
  const animals = session.book.batches
    .animals(batchId)
    .filter(({ id }) => goneIn.some((row) => row.animal_id === id));
  const held = animals.find(({ id }) => session.book.animals.hold(id));
  if (held)
    throw new ProblemError('refused', 'batch.held-in', {
      with: { ticket: held.ticket, batch: session.book.batches.get(batchId)?.name ?? '' },
    });
}

/**
 * What keeps an animal here: positive animals whose meat reached one of its batches, by the batch or by a grinder that was not
 * cleaned in between; then animals on hold whose meat was ground into one batch with its own.
 */
export function heldWith(session: Session, animalId: number): WaitsFor[] {
  const reached = affectedBatches(session, animalId).map((one) => ({ ...one, positive: true }));
  const waiting = session.book.batches
    .heldWith(animalId)
    .filter(({ positive }) => positive === 0)
    .map(({ batchId, batch, ticket }) => ({ batchId, batch, ticket, from: null, positive: false }));
  return [...reached.sort((a, b) => Number(a.from !== null) - Number(b.from !== null)), ...waiting];
}

/**
 * Refuses to set an animal ready or to hand it over while a batch with its meat holds meat of another animal that is on
 * hold, or was reached by one that tested positive. When that result comes back `not detected`, nothing is in the way any
 * more. @throws ProblemError `pooled.held`, `pooled.positive`, `pooled.through-grinder`
 */
export function refusePooledWithHeld(
  session: Session,
  { id, ticket }: Pick<AnimalRow, 'id' | 'ticket'>,
): void {
  const [first] = heldWith(session, id);
  if (first)
    throw new ProblemError('refused', codeOf(first), {
      with: { ticket, other: first.ticket, batch: first.batch, from: first.from ?? '' },
    });
}

function codeOf({ positive, from }: WaitsFor): string {
  if (!positive) return 'pooled.held';
  return from === null ? 'pooled.positive' : 'pooled.through-grinder';
}

/**
 * Refuses to weigh more into a batch that the meat of a positive animal reached: it would be lost with it. What lies in it is
 * packed, so that it can be kept apart.
 * @throws ProblemError `batch.affected`
 */
export function refuseAffectedBatch(
  session: Session,
  batch: Pick<BatchRecord, 'id' | 'season' | 'name'>,
): void {
  const [first] = reachedBy(session, batch);
  if (first)
    throw new ProblemError('refused', 'batch.affected', {
      with: { batch: batch.name, ticket: first.ticket },
    });
}

/** What a window is told of a hold: its reason, or `positive`. */
export function heldAs(hold: HoldRow | undefined): string | null {
  if (!hold) return null;
  return hold.positive === 1 ? 'positive' : hold.reason;
}

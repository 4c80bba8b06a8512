/** What is refused for an animal on hold. Received and hanging weights are always allowed. */
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
 * Refuses to cut, grind or pack an animal on hold, unless the shop's setting allows cutting before the result. After
 * a positive result all work is refused, whatever the setting.
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

/**
 * As `refuseHeld`, for moving to a later stage; moving back is always allowed. @throws ProblemError `cut.held`,
 * `cut.positive`
 */
export function refuseHeldStep(session: Session, animal: AnimalRow, to: AnimalRow['stage']): void {
  if (ORDER.indexOf(to) > ORDER.indexOf(animal.stage)) refuseHeld(session, animal);
}

/**
 * Keeps animals on hold out of pooled batches: such an animal is ground alone ("process carcasses individually":
 * Michigan State University Extension, Meat Processor Deer/Venison Processing Recommendations, 2022). The grinder
 * must also be cleaned after it (`grinder-traces.ts`).
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
 * As `refuseHeldPool`, for a weight going into a batch that may have started before the hold. Held meat does not join
 * other meat, and no other meat joins held meat.
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
 * Refuses to remove the weight of an animal from a ground batch that contains held meat, even if that animal is alone
 * in it. Residue stays in the grinder, and only this weight keeps this batch, and the ones after it, from leaving.
 * Voided packages count too. A misread weight is corrected instead; if the held animal was never in the batch, its
 * hold is ended or its result corrected first. Other reach of a positive result is protected by `keepingReach`.
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
  const weighedIn = rows.filter((row) => row.stage === 'grinder' && row.void_at === null);
  const animals = session.book.batches
    .animals(batchId)
    .filter(({ id }) => weighedIn.some((row) => row.animal_id === id));
  const held = animals.find(({ id }) => session.book.animals.hold(id));
  if (held)
    throw new ProblemError('refused', 'batch.held-in', {
      with: { ticket: held.ticket, batch: session.book.batches.get(batchId)?.name ?? '' },
    });
}

/**
 * What keeps an animal in the shop: positive animals whose meat reached one of its batches, directly or through an
 * uncleaned grinder; then animals on hold that were ground into the same batch.
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
 * Refuses to set an animal ready or to release it while one of its batches contains meat of another animal on hold,
 * or was reached by a positive one. A `not detected` result lifts this.
 * @throws ProblemError `pooled.held`, `pooled.positive`, `pooled.through-grinder`
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
 * Refuses to add meat to a batch that was reached by a positive animal: it would be lost too. Packing is allowed, so
 * that the meat can be kept apart.
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

/** How windows show a hold: its reason, or `positive`. */
export function heldAs(hold: HoldRow | undefined): string | null {
  if (!hold) return null;
  return hold.positive === 1 ? 'positive' : hold.reason;
}

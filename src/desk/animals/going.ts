/** Checks before an animal, or one hunter's part of it, leaves, and what leaves with it. */
import type { AnimalRow } from '../../book/records/animals.ts';
import { dueOf } from '../bills/due.ts';
import { ROUNDING_TOLERANCE_GRAMS } from '../animal/fat-moves.ts';
import { refusePooledWithHeld } from '../animal/hold-rules.ts';
import { moveOn } from '../animal/stage.ts';
import { pricesInForce } from '../pricing/prices.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';
import { reasonKept } from '../../trade/offered.ts';

/** @throws ProblemError `release.held`, `pooled.held`, `pooled.positive`, `pooled.through-grinder`, `release.not-ready` */
export function refuseToGo(session: Session, animal: AnimalRow): void {
  const hold = session.book.animals.hold(animal.id);
  if (hold)
    throw new ProblemError('refused', 'release.held', {
      with: { ticket: animal.ticket, reason: hold.reason, sample: hold.sample },
    });
  refusePooledWithHeld(session, animal);
  if (animal.stage !== 'ready')
    throw new ProblemError('refused', 'release.not-ready', { with: { ticket: animal.ticket } });
}

/**
 * @param dueMinor what the person picking up still has to pay
 * @throws ProblemError `release.no-bill`, `release.unpaid`
 */
export function refuseUnpaid(session: Session, { id: animalId, ticket }: AnimalRow, dueMinor: number): void {
  const { billed, currency } = dueOf(session, animalId);
  const prices = pricesInForce(session);
  if (!billed && prices && !prices.example)
    throw new ProblemError('refused', 'release.no-bill', { with: { ticket } });
  if (dueMinor > 0)
    throw new ProblemError('refused', 'release.unpaid', { with: { ticket, dueMinor, currency } });
}

/** Releases the animal when its meat, or the last part of it, leaves; own fat leaves with it. */
export function leave(
  session: Session,
  animal: AnimalRow,
  pickup: { to: string; on: string; note: string; unpaidBy: string | null; at: string; by: string },
): void {
  session.book.records.release({ animalId: animal.id, ...pickup });
  handOverOwnFat(session, animal.id, pickup.by);
  moveOn(session, animal, 'released', pickup.by);
}

/** Saved fat that was not ground leaves with the meat, so it is no longer on hand. */
function handOverOwnFat(session: Session, animalId: number, by: string): void {
  const lot = session.book.fat.ofAnimal(animalId);
  if (!lot || lot.left_grams <= ROUNDING_TOLERANCE_GRAMS) return;
  session.book.fat.move({
    lotId: lot.id,
    kind: 'handed over',
    grams: -lot.left_grams,
    typed: null,
    weighingId: null,
    note: reasonKept('handed-over'),
    at: session.now(),
    by,
  });
}

/** Belongings that are still here when an animal is picked up. */
import { belongingsHere } from '../animal/belongings.ts';
import { isConfirmed, type Confirmed } from '../input/day-doubts.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

interface Going {
  /** Ids of the belongings that are handed over. */
  belongings: readonly number[];
  confirmed: Confirmed;
}

/**
 * Asks for confirmation if belongings stay behind.
 * @throws ProblemError `belonging.unknown` (missing); `release.belongings` (conflict: pass `confirmed`)
 */
export function askBelongings(
  session: Session,
  { id: animalId, ticket }: { id: number; ticket: string },
  { belongings, confirmed }: Going,
): void {
  const here = belongingsHere(session, animalId);
  if (belongings.some((one) => !here.some(({ id }) => id === one)))
    throw new ProblemError('missing', 'belonging.unknown', { field: 'belongings' });
  const stays = here.filter(({ id }) => !belongings.includes(id));
  if (stays.length > 0 && !isConfirmed(confirmed, 'release.belongings'))
    throw new ProblemError('conflict', 'release.belongings', {
      field: 'belongings',
      with: { ticket, kinds: stays.map(({ kind }) => kind).join(', ') },
    });
}

/** Records that belongings were handed over with the animal. */
export function handOverBelongings(
  session: Session,
  belongings: readonly number[],
  pickup: { to: string; on: string; at: string; by: string },
): void {
  for (const belongingId of new Set(belongings))
    session.book.belongings.end({
      belongingId,
      went: 'hunter',
      name: pickup.to,
      receipt: '',
      on: pickup.on,
      note: '',
      at: pickup.at,
      by: pickup.by,
    });
}

/** A pickup and its belongings are written in one transaction. */
const TOGETHER_MS = 2000;

/** Restores belongings of a voided pickup to where they were stored. */
export function restoreBelongings(
  session: Session,
  animalId: number,
  handedOver: { to: string; at: string },
  { reason, by: initials }: { reason: string; by: string },
): void {
  const moment = Date.parse(handedOver.at);
  for (const { end_id: endId, end_at: at, went, went_to: to } of session.book.belongings.ofAnimal(animalId)) {
    if (endId === null || at === null || went !== 'hunter' || to !== handedOver.to) continue;
    if (Math.abs(Date.parse(at) - moment) <= TOGETHER_MS)
      session.book.belongings.voidEnd(endId, reason, session.now(), initials);
  }
}

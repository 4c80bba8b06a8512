/** What came with an animal and is still here, when the animal is handed over. */
import { belongingsHere } from '../animal/belongings.ts';
import { isConfirmed, type Confirmed } from '../input/day-doubts.ts';
import { ProblemError } from '../contract/problem.ts';
import type { Session } from '../session/session.ts';

interface Going {
  /** Belongings that go along. */
  belongings: readonly number[];
  confirmed: Confirmed;
}

/**
 * Asks about what is still here and does not go along.
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

/** Keeps that belongings went back to the hunter, at the moment of the handing over. */
export function handOverBelongings(
  session: Session,
  belongings: readonly number[],
  said: { to: string; on: string; at: string; by: string },
): void {
  for (const belongingId of new Set(belongings))
    session.book.belongings.end({
      belongingId,
      went: 'hunter',
      name: said.to,
      receipt: '',
      on: said.on,
      note: '',
      at: said.at,
      by: said.by,
    });
}

/** A handing over and what went along are written in one transaction. */
const TOGETHER_MS = 2000;

/** Voids that belongings went along with a handing over that did not happen: each is here again, where it was stored. */
export function takeBackBelongings(
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

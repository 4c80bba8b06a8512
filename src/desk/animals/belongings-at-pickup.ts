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

/** Keeps that belongings went back to the hunter. */
export function handOverBelongings(
  session: Session,
  belongings: readonly number[],
  said: { to: string; on: string; by: string },
): void {
  for (const belongingId of new Set(belongings))
    session.book.belongings.end({
      belongingId,
      went: 'hunter',
      name: said.to,
      receipt: '',
      on: said.on,
      note: '',
      at: session.now(),
      by: said.by,
    });
}

/** How long a draft that became no ticket keeps its personal details. */
import { clockDoubt } from '../../session/clock.ts';
import type { Session } from '../../session/session.ts';

/** Two weeks: a hunter who has not come back by then checks in anew. Our choice, no source. */
export const DRAFT_DAYS = 14;
const DAY_MS = 86_400_000;

/** The moment from which on drafts still count. */
export function draftsSince(session: Pick<Session, 'now'>): string {
  return new Date(Date.parse(session.now()) - DRAFT_DAYS * DAY_MS).toISOString();
}

/** Removes personal details of drafts that are too old, unless the computer’s clock is in doubt. */
export function removeOldDrafts(session: Session): void {
  const before = draftsSince(session);
  const { oldDrafts } = session.book;
  if (!oldDrafts.due(before) || clockDoubt(session)) return;
  session.book.change(() => oldDrafts.remove(before, session.now()));
  // Caches may still contain the details.
  session.book.changes.invalidate();
}

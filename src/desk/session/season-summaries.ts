/** Writes summaries of past seasons into the book. Upkeep calls it, because a read never writes. */
import type { Session } from './session.ts';
import { summariseAnimal, summaryKey, summariseSeason } from '../learning/season-summary.ts';

/**
 * Summarises one season that is over and has no summary by the present rule, from its rows as they stand in the same
 * transaction. One at a time, so that nobody waits for twenty seasons.
 * @returns whether there was one. A book that only gained a summary needs no backup for it.
 */
export function summariseNext(session: Session): boolean {
  const { book, backups } = session;
  const profiles = session.species.all;
  const rule = summaryKey(profiles);
  const running = session.season();
  const season = book.seasonSummaries.without(rule).find((one) => one !== running);
  if (season === undefined) return false;
  const due = backups.due();
  book.change(() => {
    const animals = book.sums.finished(season).map((row) => summariseAnimal(row, profiles));
    book.seasonSummaries.keep(season, rule, summariseSeason(animals));
  });
  if (!due) backups.made();
  return true;
}

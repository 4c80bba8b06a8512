/** Stores summaries of past seasons in the book. Upkeep calls it, because a read never writes. */
import type { Session } from './session.ts';
import { summariseAnimal, summaryKey, summariseSeason } from '../learning/season-summary.ts';

/**
 * Summarises one past season without a summary by the current rule, from its rows in the same transaction. One at a
 * time, so that no call waits for twenty seasons.
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

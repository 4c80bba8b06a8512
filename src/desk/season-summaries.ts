/** Summaries of seasons that are over, written into the book by upkeep: a call that reads writes nothing. */
import { createHash } from 'node:crypto';
import type { SpeciesProfile } from '../core/species.ts';
import type { DeskRoom } from './room.ts';
import { animalTaught, seasonTaught } from './season-taught.ts';

/** Changes whenever animals are summarised in another way, so that what older programs wrote is summarised again. */
const WAY = 2;

/** What decides which weights teach and what they say: another set of species gives other summaries. */
export function ruleOf(profiles: readonly SpeciesProfile[]): string {
  const telling = profiles.map(({ code, hangingGrams }) => [code, hangingGrams.least, hangingGrams.most]);
  return `${WAY}-${createHash('sha256').update(JSON.stringify(telling)).digest('hex').slice(0, 16)}`;
}

/**
 * Summarises one season that is over and has no summary by the present rule, from its rows as they stand in the same
 * transaction. One at a time, so that nobody waits for twenty seasons.
 * @returns whether there was one. A book that only gained a summary needs no backup for it.
 */
export function summariseNext(room: DeskRoom): boolean {
  const { book, backups } = room;
  const profiles = room.species.all;
  const rule = ruleOf(profiles);
  const running = room.season();
  const season = book.seasonsTaught.without(rule).find((one) => one !== running);
  if (season === undefined) return false;
  const due = backups.due();
  book.change(() => {
    const animals = book.sums.finished(season).map((row) => animalTaught(row, profiles));
    book.seasonsTaught.keep(season, rule, seasonTaught(animals));
  });
  if (!due) backups.made();
  return true;
}

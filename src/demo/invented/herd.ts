import { addDays } from '../../core/values/dates.ts';
import { inventAnimal, type Arrival, type DemoAnimal } from './animal.ts';
import { drawing } from './draw.ts';
import { ANIMALS, SEASONS, type InventedSeason } from './invention.ts';
import type { Town } from './people.ts';

/** Frequency of weekdays, Saturday to Friday: most hunts end on weekends. */
const DAYS = [5, 7, 5, 2, 2, 2, 3].map((weight, value) => ({ value, weight }));

/** All animals of a season, in order of arrival. */
export function herdOf(season: InventedSeason, town: Town, lastDay: string): DemoAnimal[] {
  const draw = drawing(SEASONS.seed, season.season);
  const arrivals = ANIMALS.species.flatMap((kind) => {
    const weeks = kind.weeks.map((weight, value) => ({ value, weight }));
    return Array.from({ length: kind.heads[season.season] ?? 0 }, () => {
      const week = draw.pickWeighted(weeks);
      const receivedOn = addDays(season.opens, week * 7 + draw.pickWeighted(DAYS));
      return { season, kind, week, receivedOn: receivedOn < lastDay ? receivedOn : lastDay };
    });
  });
  return arrivals
    .sort((a, b) => (a.receivedOn < b.receivedOn ? -1 : Number(a.receivedOn > b.receivedOn)))
    .map((arrival, i): Arrival => ({ ...arrival, number: i + 1 }))
    .map((arrival) => inventAnimal(arrival, (own) => town.next(own, season.season, season.returning)));
}

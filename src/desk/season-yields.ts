/** Take-home by species: how it lies, what was published, what earlier seasons gave, what it parts by. */
import type { SharePoint } from '../book/season-yields.ts';
import { quantileRanks } from '../core/quantile.ts';
import { spreadOf } from '../core/spread.ts';
import { read } from './procedure.ts';
import type { DeskRoom } from './room.ts';
import { seasonFilter, sumsOf } from './season-filter.ts';
import type { SpeciesYield, SplitBy, YieldsLook } from './shapes.ts';

/** More dots than this in one row cannot be told apart. */
const MOST_POINTS = 300;

export const yields = read(seasonFilter, (room, input): YieldsLook => {
  const filter = sumsOf(room, input);
  const { animals, take_home: takeHomeGrams, untold } = room.book.seasonYields.counts(filter);
  return {
    season: filter.season,
    animals,
    takeHomeGrams,
    untold,
    species: room.book.seasonYields
      .species(filter)
      .map(({ species }) => speciesYield(room, { ...filter, species })),
  };
});

function speciesYield(room: DeskRoom, filter: ReturnType<typeof sumsOf> & { species: string }): SpeciesYield {
  const { name, takeHome } = room.species.of(filter.species);
  const rows = room.book.seasonYields.points(filter);
  const shown = evenly(rows, MOST_POINTS);
  const tickets = room.book.seasonYields.tickets(shown.map(({ animal_id: id }) => id));
  return {
    code: filter.species,
    name,
    spread: spreadOf(rows.map(({ share }) => share)),
    points: shown.map(({ animal_id: id, share }) => ({ ticket: tickets.get(id) ?? '', share })),
    published: { low: takeHome.low, high: takeHome.high, source: takeHome.source },
    seasons: everySeason(room, filter),
    splits: {
      brought: split(rows, ({ brought }) => brought),
      sex: split(rows, ({ sex }) => sex),
      age: split(rows, ({ age }) => age),
      damaged: split(rows, ({ damaged }) => (damaged ? 'yes' : 'no')),
      detail: split(rows, ({ detail }) => detail),
      cutter: split(rows, ({ cutter }) => cutter),
    },
  };
}

/** The quarters of each season, read by rank off the index instead of from all its animals. */
function everySeason(
  room: DeskRoom,
  filter: ReturnType<typeof sumsOf> & { species: string },
): SpeciesYield['seasons'] {
  // Days lie within one season, so they narrow no other.
  const ofAny = { ...filter, season: undefined, from: undefined, to: undefined };
  return room.book.seasonYields.seasons(ofAny).map(({ season, n }) => {
    const at = (p: number): number => {
      const { rank, beyond } = quantileRanks(n, p);
      const [below = 0, above = below] = room.book.seasonYields.ranked({ ...ofAny, season }, rank);
      return below + (above - below) * beyond;
    };
    return { season, n, q1: at(0.25), median: at(0.5), q3: at(0.75) };
  });
}

function split(
  rows: readonly SharePoint[],
  by: (row: SharePoint) => string | null,
): SpeciesYield['splits'][SplitBy] {
  const groups = Map.groupBy(rows, by);
  return [...groups].flatMap(([value, own]) => {
    const spread = spreadOf(own.map(({ share }) => share));
    return value === null || spread === null ? [] : [{ value, spread }];
  });
}

/** So many of an ordered list, evenly through its order, the first and the last among them. */
export function evenly<T>(ordered: readonly T[], most: number): readonly T[] {
  if (ordered.length <= most) return ordered;
  const step = (ordered.length - 1) / (most - 1);
  return Array.from({ length: most }, (_, i) => ordered[Math.round(i * step)] as T);
}

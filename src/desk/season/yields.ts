/** Take-home by species: distribution, published figures, earlier seasons, and splits. */
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import { quantileRanks } from '../../core/stats/quantile.ts';
import { summariseDistribution } from '../../core/stats/distribution-summary.ts';
import { read } from '../session/procedure.ts';
import type { Session } from '../session/session.ts';
import { bySpecies, chosenRows, isDone, seasonFilter, sumsOf } from '../session/season-filter.ts';
import { sourceNote } from '../supplied/sources.ts';
import type { SpeciesYield, SplitBy, YieldsReport } from '../contract/contract.ts';

/** More points in one row are indistinguishable. */
const MAX_POINTS = 300;

type Filter = ReturnType<typeof sumsOf>;
/** An animal with a known share. */
type Shared = SeasonRow & { share: number };

export const yields = read(seasonFilter, (session, input): YieldsReport => {
  const filter = sumsOf(session, input);
  const rows = chosenRows(session, filter);
  const seasons = session.book.seasonSummaries.seasons();
  return {
    season: filter.season,
    animals: rows.length,
    takeHomeGrams: rows.reduce((sum, row) => sum + (row.finished ? (row.take_home ?? 0) : 0), 0),
    withoutShare: rows.filter(({ stage, share }) => share === null && isDone(stage)).length,
    species: bySpecies(rows).map(([species, of]) =>
      speciesYield(session, { ...filter, species }, of, seasons),
    ),
  };
});

function speciesYield(
  session: Session,
  filter: Filter & { species: string },
  of: readonly SeasonRow[],
  seasons: readonly number[],
): SpeciesYield {
  const { name, takeHome } = session.species.of(filter.species);
  const rows = of.filter((row): row is Shared => row.share !== null).sort((a, b) => a.share - b.share);
  const shares = rows.map(({ share }) => share);
  return {
    code: filter.species,
    name,
    spread: summariseDistribution(shares),
    points: evenly(rows, MAX_POINTS).map(({ ticket, share }) => ({ ticket, share })),
    published:
      takeHome.grade === 'assumption'
        ? null
        : { low: takeHome.low, high: takeHome.high, ...sourceNote(takeHome) },
    seasons: seasons.flatMap((season) => quartersOf(session, { ...filter, season })),
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

/** The quartiles of a season, read by rank from the index instead of from all its animals; null without any. */
function quartersOf(session: Session, filter: Filter & { species: string }): SpeciesYield['seasons'] {
  // Dates lie within one season, so they do not filter others.
  const any = { ...filter, from: undefined, to: undefined };
  return session.cached('animal', any.season, `quarters ${JSON.stringify(any)}`, () => {
    const { seasonYields } = session.book;
    const n = seasonYields.shares(any);
    if (n === 0) return [];
    const at = (p: number): number => {
      const { rank, fraction } = quantileRanks(n, p);
      const [below = 0, above = below] = seasonYields.ranked(any, rank);
      return below + (above - below) * fraction;
    };
    return [{ season: any.season, n, q1: at(0.25), median: at(0.5), q3: at(0.75) }];
  });
}

function split(rows: readonly Shared[], by: (row: Shared) => string | null): SpeciesYield['splits'][SplitBy] {
  const groups = new Map<string, number[]>();
  for (const row of rows) {
    const value = by(row);
    if (value === null) continue;
    const own = groups.get(value);
    if (own) own.push(row.share);
    else groups.set(value, [row.share]);
  }
  return [...groups].flatMap(([value, own]) => {
    const spread = summariseDistribution(own);
    return spread === null ? [] : [{ value, spread }];
  });
}

/** Selects so many items evenly from an ordered list, the first and the last included. */
export function evenly<T>(ordered: readonly T[], most: number): readonly T[] {
  if (ordered.length <= most) return ordered;
  const step = (ordered.length - 1) / (most - 1);
  return Array.from({ length: most }, (_, i) => ordered[Math.round(i * step)] as T);
}

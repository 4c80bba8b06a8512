/** The filter of a season view, and its translation for the book. */
import * as v from 'valibot';
import { chosenOf, type SumFilter } from '../../book/sums/season-filter.ts';
import type { SeasonRow } from '../../book/sums/season-rows.ts';
import { age, brought, date, needed, sex } from '../input/input.ts';
import type { Session } from './session.ts';
import type { SeasonFilter } from '../contract/contract.ts';

/** A season, named by the year in which it starts. */
export const seasonYear = v.pipe(
  v.number('season.unknown'),
  v.integer('season.unknown'),
  v.minValue(1, 'season.unknown'),
  v.maxValue(9999, 'season.unknown'),
);

export const filterFields = {
  season: v.optional(seasonYear),
  species: v.optional(needed(60)),
  from: v.optional(date),
  to: v.optional(date),
  brought: v.optional(brought),
  sex: v.optional(sex),
  age: v.optional(age),
  damaged: v.optional(v.boolean()),
  detail: v.optional(v.picklist(['detailed', 'quick'], 'choice.detail')),
  cutter: v.optional(needed(6)),
};

export const seasonFilter = v.object(filterFields);

/** The filter over the book's sums, of the current season by default. */
export function sumsOf(
  session: Session,
  { damaged, season, ...rest }: SeasonFilter,
): SumFilter & { season: number } {
  return {
    ...rest,
    season: season ?? session.season(),
    ...(damaged === undefined ? {} : { damaged: damaged ? 1 : 0 }),
  };
}

/** The filtered animals with their sums. */
export function chosenRows(session: Session, filter: SumFilter & { season: number }): readonly SeasonRow[] {
  return chosenOf(session.book.seasonRows(filter.season), filter);
}

/** Grouped by species, largest group first. */
export function bySpecies<Row extends SeasonRow>(rows: readonly Row[]): [species: string, rows: Row[]][] {
  return [...Map.groupBy(rows, ({ species }) => species)].sort(
    ([a, of], [b, others]) => others.length - of.length || (a < b ? -1 : 1),
  );
}

/** Whether all weighing at the Table is finished. */
export function isDone(stage: string): boolean {
  return stage === 'packing' || stage === 'ready' || stage === 'released';
}

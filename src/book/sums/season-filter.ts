import type { SeasonRow } from './season-rows.ts';

/** The animals of a season view. Names are columns of `animal_sum`; undefined does not filter. */
export interface SumFilter {
  season?: number | undefined;
  species?: string | undefined;
  from?: string | undefined;
  to?: string | undefined;
  brought?: string | undefined;
  sex?: string | undefined;
  age?: string | undefined;
  damaged?: 0 | 1 | undefined;
  detail?: string | undefined;
  cutter?: string | undefined;
}

const CONDITIONS: Readonly<Record<keyof SumFilter, string>> = {
  season: 's.season = @season',
  species: 's.species = @species',
  from: 's.received_on >= @from',
  to: 's.received_on <= @to',
  brought: 's.brought = @brought',
  sex: 's.sex = @sex',
  age: 's.age = @age',
  damaged: 's.damaged = @damaged',
  detail: 's.detail = @detail',
  cutter: 's.cutter = @cutter',
};

const LIKE = ['species', 'brought', 'sex', 'age', 'damaged', 'detail', 'cutter'] as const;

/** Filters a season's rows in memory, with the same result as `conditionsOf` in SQL. */
export function chosenOf(rows: readonly SeasonRow[], filter: SumFilter): readonly SeasonRow[] {
  const { from, to } = filter;
  const like = LIKE.filter((column) => filter[column] !== undefined);
  if (like.length === 0 && from === undefined && to === undefined) return rows;
  return rows.filter(
    (row) =>
      (from === undefined || row.received_on >= from) &&
      (to === undefined || row.received_on <= to) &&
      like.every((column) => row[column] === filter[column]),
  );
}

/** The SQL conditions on `animal_sum s` for the filter, joined by AND; values are bound by name, never concatenated. */
export function conditionsOf(filter: SumFilter): string {
  const keys = (Object.keys(CONDITIONS) as (keyof SumFilter)[]).filter((key) => filter[key] !== undefined);
  return keys.length === 0 ? '1' : keys.map((key) => CONDITIONS[key]).join(' AND ');
}

/** The bound values of `conditionsOf`. */
export function boundOf(filter: SumFilter): Record<string, string | number> {
  return Object.fromEntries(
    Object.entries(filter).filter((one): one is [string, string | number] => one[1] !== undefined),
  );
}

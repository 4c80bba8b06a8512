/** The filter of a season view as the query of its address, for sharing, bookmarks and history. */
import type { LocationQuery } from 'vue-router';
import type { SeasonFilter } from '../../bridge/contract.ts';

/** The possible orders of the animals behind a mark. */
export const ORDERS = [
  'ticket',
  'takeHome',
  'hanging',
  'bone',
  'damage',
  'unexplained',
  'days',
  'income',
] as const;
export type DrilldownOrder = (typeof ORDERS)[number];

const DATE = /^\d{4}-\d{2}-\d{2}$/;
const oneOf =
  <T extends string>(...choices: T[]) =>
  (text: string): T | undefined =>
    choices.find((one) => one === text);
const some = (text: string): string | undefined => text || undefined;
const date = (text: string): string | undefined => (DATE.test(text) ? text : undefined);

/** The parser of each field; invalid values do not filter. */
const READ: { [K in keyof Required<SeasonFilter>]: (text: string) => SeasonFilter[K] } = {
  season: (text) => (/^\d{4}$/.test(text) ? Number(text) : undefined),
  species: some,
  from: date,
  to: date,
  brought: oneOf('whole', 'skinned', 'quarters', 'primals', 'boned'),
  sex: oneOf('male', 'female', 'unknown'),
  age: oneOf('young', 'yearling', 'adult', 'unknown'),
  damaged: (text) => (text === 'yes' ? true : text === 'no' ? false : undefined),
  detail: oneOf('detailed', 'quick'),
  cutter: some,
};
export const FIELDS = Object.keys(READ) as (keyof SeasonFilter)[];

/**
 * The filter in an address under `prefix`.
 * @example filterOf({ season: '2026', brought: 'skinned' }) // { season: 2026, brought: 'skinned' }
 */
export function filterOf(query: LocationQuery, prefix = ''): SeasonFilter {
  const read = (field: keyof SeasonFilter): [string, unknown][] => {
    const text = query[prefix + field];
    const value = typeof text === 'string' ? READ[field](text) : undefined;
    return value === undefined ? [] : [[field, value]];
  };
  return Object.fromEntries(FIELDS.flatMap(read)) as SeasonFilter;
}

/** The inverse: only fields that filter are in the address. */
export function queryOf(filter: SeasonFilter, prefix = ''): Record<string, string> {
  const write = (field: keyof SeasonFilter): [string, string][] => {
    const value = filter[field];
    if (value === undefined || value === '') return [];
    return [[prefix + field, typeof value === 'boolean' ? (value ? 'yes' : 'no') : String(value)]];
  };
  return Object.fromEntries(FIELDS.flatMap(write));
}

/** Whether anything but the season filters the view. */
export function narrows(filter: SeasonFilter): boolean {
  return FIELDS.some((field) => field !== 'season' && filter[field] !== undefined);
}

/** A place with this filter in its address, as a link to follow. */
export function linkTo(
  path: string,
  filter: SeasonFilter,
  more: Readonly<Record<string, string>> = {},
): string {
  const query = new URLSearchParams({ ...queryOf(filter), ...more }).toString();
  return query ? `${path}?${query}` : path;
}

/**
 * Link to the list of the filtered animals, largest value of the order first; `between` limits their measure, as
 * for the bars of a histogram.
 */
export function drilldownLink(
  filter: SeasonFilter,
  order?: DrilldownOrder,
  between?: readonly [number, number],
): string {
  const [least, most] = between ?? [];
  return linkTo('/season/animals', filter, {
    ...(order ? { order } : {}),
    ...(least === undefined || most === undefined ? {} : { least: String(least), most: String(most) }),
  });
}

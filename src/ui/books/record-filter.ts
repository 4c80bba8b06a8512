import type { LocationQuery } from 'vue-router';
import type { CallInput, RecordRow } from '../../bridge/contract.ts';

/** The filter of the record book, as in its fields and in the address. */
export interface RecordFilter {
  /** A season; `dates` for any season, filtered by the date received. */
  season: string;
  from: string;
  to: string;
  species: string;
  state: '' | 'open' | 'closed';
  only: '' | 'lacks' | 'late' | 'past';
  text: string;
}

/** A date before any animal; selects every season. */
const FIRST_DAY = '0001-01-01';

export function filterFrom(query: LocationQuery, season: number): RecordFilter {
  const param = (key: string): string => String(query[key] ?? '');
  const one = <T extends string>(key: string, known: readonly T[]): T | '' =>
    known.find((value) => value === param(key)) ?? '';
  return {
    season: param('season') || String(season),
    from: param('from'),
    to: param('to'),
    species: param('species'),
    state: one('state', ['open', 'closed'] as const),
    only: one('only', ['lacks', 'late', 'past'] as const),
    text: param('text'),
  };
}

/** The fields of a filter that belong in the address. */
export function queryOf(filter: RecordFilter): Record<string, string> {
  return Object.fromEntries(Object.entries(filter).filter(([, value]) => value !== ''));
}

export function questionOf(filter: RecordFilter): CallInput<'records.list'> {
  const { season, from, to, species, state, text } = filter;
  return {
    ...(season === 'dates' ? { from: from || FIRST_DAY, to: to || null } : { season: Number(season) }),
    species: species || null,
    state: state || null,
    ...(text.trim() && { text }),
  };
}

export function picks(only: RecordFilter['only'], row: RecordRow): boolean {
  if (only === 'lacks') return row.lacks.length > 0;
  if (only === 'late') return row.lateDays > 0;
  return only === 'past' ? row.pastKeeping : true;
}

import type { Statement } from 'better-sqlite3';
import type { Db } from '../file/db.ts';
import { boundOf, conditionsOf, type SumFilter } from './season-filter.ts';

/**
 * A query over `animal_sum s` with any filter, prepared once for each combination of filters. `sql` receives the
 * conditions as text and places them; further values are bound by name.
 */
export function filtered<Row>(db: Db, sql: (conditions: string) => string) {
  const prepared = new Map<string, Statement<[Record<string, string | number | null>], Row>>();
  const of = (filter: SumFilter) => {
    const conditions = conditionsOf(filter);
    let found = prepared.get(conditions);
    if (!found) {
      found = db.prepare<[Record<string, string | number | null>], Row>(sql(conditions));
      prepared.set(conditions, found);
    }
    return found;
  };
  return {
    all: (filter: SumFilter, more: Record<string, string | number | null> = {}): Row[] =>
      of(filter).all({ ...boundOf(filter), ...more }),
    get: (filter: SumFilter, more: Record<string, string | number | null> = {}): Row | undefined =>
      of(filter).get({ ...boundOf(filter), ...more }),
  };
}

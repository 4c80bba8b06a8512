import { filtered } from './filtered.ts';
import type { Db } from '../file/db.ts';
import { MEASURES, type Measure } from './season-compare.ts';
import type { SumFilter } from './season-filter.ts';
import type { Age, AnimalStage, Brought, Sex } from '../../trade/animal.ts';

interface DrilldownRow {
  ticket: string;
  species: string;
  hunter: string;
  brought: Brought;
  sex: Sex;
  age: Age;
  stage: AnimalStage;
  cutter: string | null;
  received_on: string;
  ready_on: string | null;
  base: number | null;
  take_home: number | null;
  share: number | null;
  value: number | null;
}

export type DrilldownOrder = 'ticket' | Measure;

/** The animals behind a figure. */
export function seasonDrilldown(db: Db) {
  const lists = new Map<string, ReturnType<typeof filtered<DrilldownRow>>>();
  const list = (order: DrilldownOrder, rising: boolean) => {
    const key = `${order} ${rising}`;
    let found = lists.get(key);
    if (!found) {
      const value = order === 'ticket' ? 'NULL' : MEASURES[order];
      // Rows are limited before hunters are joined.
      found = filtered<DrilldownRow>(
        db,
        (conditions) =>
          `SELECT a.ticket, s.species, h.name AS hunter, s.brought, s.sex, s.age, s.stage, s.cutter, s.received_on, s.ready_on,
             s.base, s.take_home, s.share, p.value
           FROM (SELECT s.animal_id, ${value} AS value FROM animal_sum s WHERE ${conditions}
             AND (@at IS NULL OR ${order === 'ticket' ? '1' : `${value} BETWEEN @at AND @until`})
             ORDER BY value IS NULL, value ${rising ? 'ASC' : 'DESC'}, s.animal_id LIMIT @most) p
           JOIN animal_sum s ON s.animal_id = p.animal_id JOIN animal a ON a.id = p.animal_id
           JOIN hunter h ON h.id = a.hunter_id ORDER BY p.value IS NULL, p.value ${rising ? 'ASC' : 'DESC'}, p.animal_id`,
      );
      lists.set(key, found);
    }
    return found;
  };
  const total = new Map<DrilldownOrder, ReturnType<typeof filtered<{ n: number }>>>();
  const totalOf = (order: DrilldownOrder) => {
    let found = total.get(order);
    if (!found) {
      const between = order === 'ticket' ? '1' : `${MEASURES[order]} BETWEEN @at AND @until`;
      found = filtered<{ n: number }>(
        db,
        (conditions) =>
          `SELECT count(*) AS n FROM animal_sum s WHERE ${conditions} AND (@at IS NULL OR ${between})`,
      );
      total.set(order, found);
    }
    return found;
  };
  return {
    /** Up to `limit` rows, those without a value last; `between` selects the values of one bar. */
    list(
      filter: SumFilter,
      { order, rising, most, currency, between }: DrilldownQuery,
    ): { total: number; rows: DrilldownRow[] } {
      const bound = {
        at: between?.[0] ?? null,
        until: between?.[1] ?? null,
        ...(order === 'income' ? { currency } : {}),
      };
      return {
        total: totalOf(order).get(filter, order === 'ticket' ? { at: null } : bound)?.n ?? 0,
        rows: list(order, rising).all(filter, { ...(order === 'ticket' ? { at: null } : bound), most }),
      };
    },
  };
}

interface DrilldownQuery {
  order: DrilldownOrder;
  /** Ascending. */
  rising: boolean;
  most: number;
  currency: string;
  between: readonly [number, number] | null;
}

/** What each measure is in the views of the ledger. Backlog has no figure of one animal: `backlog.ts`. */
import type { SqlValue } from '../server/server.ts';
import type { OwnerAsks, OwnerMeasure } from './asked.ts';

/** Deviation of a fat test from its target that counts as on target: a point of fat, as in the desk's fat report. */
const ON_TARGET = '0.01 + 1e-9';

interface MeasureSql {
  view: string;
  /** The figure of one animal, batch or bill; NULL where it has none. */
  value: string;
  /** Sums over a group besides its distribution, by the name that they have in the answer. */
  facts: Readonly<Record<string, string>>;
  /** What the row is called, its day, its tickets, and how rows of one value are ordered. */
  row: { name: string; on: string; tickets: string; key: string };
}

const animal = (on: string): MeasureSql['row'] => ({
  name: 'ticket',
  on,
  tickets: 'ARRAY[ticket]',
  key: 'animal_id',
});

export const MEASURE_SQL: Readonly<Record<OwnerMeasure, MeasureSql>> = {
  takeHome: {
    view: 'yield_by_animal',
    value: 'take_home_share',
    facts: { takeHomeGrams: 'coalesce(sum(take_home_grams), 0)' },
    row: animal('received_on'),
  },
  fat: {
    view: 'fat_by_batch',
    value: 'tested_fat - target_fat',
    facts: {
      onTarget: `count(*) FILTER (WHERE abs(tested_fat - target_fat) <= ${ON_TARGET})`,
      ownGrams: 'coalesce(sum(own_grams), 0)',
      boughtGrams: 'coalesce(sum(bought_fat_grams), 0)',
    },
    row: { name: 'batch', on: 'started_on', tickets: 'tickets', key: 'batch_id' },
  },
  money: {
    view: 'money_by_bill',
    value: 'subtotal_minor::double precision',
    facts: { subtotalMinor: 'coalesce(sum(subtotal_minor), 0)::bigint' },
    row: animal('billed_on'),
  },
  quotes: {
    view: 'quote_accuracy',
    value: 'off_share',
    facts: { held: 'count(*) FILTER (WHERE held)' },
    row: animal('NULL::date'),
  },
  backlog: {
    view: 'backlog_by_animal',
    value: 'base_grams',
    facts: {},
    row: animal('received_on'),
  },
};

/** Conditions of a question with their values, numbered from `$1`. Batches of several species count for each of them. */
export function conditionsOf(
  { measure, season, species }: Pick<OwnerAsks, 'measure' | 'season' | 'species'>,
  more: readonly (readonly [sql: (at: string) => string, value: SqlValue])[] = [],
): { where: string; values: SqlValue[] } {
  const isFat = measure === 'fat';
  const all: (readonly [(at: string) => string, SqlValue])[] = [
    ...(season === undefined ? [] : [[(at: string) => `season = ${at}`, season] as const]),
    ...(species === undefined
      ? []
      : // PostgreSQL expects next to nothing of "= ANY", and would go over all tests for each batch.
        [
          [
            (at: string) => (isFat ? `array_position(species, ${at}) IS NOT NULL` : `species = ${at}`),
            species,
          ] as const,
        ]),
    ...more,
  ];
  return {
    // As in the shop's own fat report, a batch without an animal is left out.
    where: [...(isFat ? ["species <> '{}'"] : ['true']), ...all.map(([sql], i) => sql(`$${i + 1}`))].join(
      ' AND ',
    ),
    values: all.map(([, value]) => value),
  };
}

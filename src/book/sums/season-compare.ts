import { filtered } from './filtered.ts';
import type { Db } from '../file/db.ts';
import type { SumFilter } from './season-filter.ts';

/** Measures of animals, one number each; NULL if unknown. */
export const MEASURES = {
  takeHome: 'share',
  bone: "iif(s.finished = 1 AND s.brought IN ('whole', 'skinned') AND s.base > 0, s.bone / s.base, NULL)",
  damage: 'iif(s.finished = 1 AND s.base > 0, s.damage / s.base, NULL)',
  hanging: 'hanging',
  days: 'julianday(s.ready_on) - julianday(s.received_on)',
  income: `(SELECT sum(b.subtotal_minor) FROM bill b WHERE b.animal_id = s.animal_id AND b.currency = @currency
     AND NOT EXISTS (SELECT 1 FROM bill_void v WHERE v.bill_id = b.id))`,
  unexplained:
    'iif(s.finished = 1, s.base - s.take_home - s.bone - s.sinew - coalesce(s.damage, 0.0), NULL) / s.base',
} as const;

export type Measure = keyof typeof MEASURES;

export interface GroupMoments {
  n: number;
  mean: number | null;
  /** Sum of squared deviations from the mean. */
  squares: number;
}

/** Groups of animals by one measure. */
export function seasonCompare(db: Db) {
  const moments = Object.fromEntries(
    (Object.keys(MEASURES) as Measure[]).map((measure) => [
      measure,
      // The NOT NULL condition comes first, so that shares are read from their index alone. Two passes: the
      // difference of a sum of squares and a square of sums would lose digits.
      filtered<GroupMoments>(
        db,
        (conditions) =>
          `WITH one AS MATERIALIZED (SELECT ${MEASURES[measure]} AS x FROM animal_sum s WHERE ${MEASURES[measure]} IS NOT NULL AND ${conditions}),
             middle AS MATERIALIZED (SELECT avg(x) AS m FROM one)
           SELECT count(x) AS n, avg(x) AS mean, total((x - m) * (x - m)) AS squares FROM one, middle`,
      ),
    ]),
  ) as Record<Measure, ReturnType<typeof filtered<GroupMoments>>>;
  return {
    /** Count, mean and squares over a group's animals with a known measure. */
    moments(measure: Measure, filter: SumFilter, currency: string): GroupMoments {
      return (
        moments[measure].get(filter, measure === 'income' ? { currency } : {}) ?? {
          n: 0,
          mean: null,
          squares: 0,
        }
      );
    },
  };
}

import type { StandingWeight, WeighingRecord } from '../../book/records/weighings.ts';
import type { Flow } from '../../core/balance/balance.ts';
import { readingStepGrams } from '../../core/values/reading.ts';

/** Minimum relative SD of a reading, whatever the scale step: hooks swing and totes drip. */
const RELATIVE_SD = 0.002;

/** The fields of a weighing that the balance uses, stored or being entered. */
export type BalanceRow = StandingWeight & {
  /** Tare of the container; 0 if none. */
  tareGrams: number;
};

/** A weighing as a flow between two nodes of the balance. */
export function flowOf(
  row: Pick<WeighingRecord, 'id' | 'grams' | 'digits' | 'decimals' | 'unit'>,
  from: string | null,
  to: string | null,
): Flow {
  const sd = Math.hypot(readingStepGrams(row) / 2, row.grams * RELATIVE_SD);
  return { id: `${row.id}`, from, to, grams: row.grams, sd };
}

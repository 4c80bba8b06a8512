import type { WeighingRecord } from '../../book/records/weighings.ts';
import type { Flow } from '../../core/balance/balance.ts';
import { readingStepGrams } from '../../core/values/reading.ts';

/** A reading is no better than this share of itself, whatever its step: hooks swing and totes drip. */
const RELATIVE_SD = 0.002;

/** One weighing, as far as the balance looks at it: kept, or about to be. */
export type BalanceRow = Pick<
  WeighingRecord,
  'id' | 'stage' | 'part' | 'primal' | 'typed' | 'digits' | 'decimals' | 'unit' | 'grams' | 'at' | 'void_at'
> & {
  /** The container that was taken off; 0 for none. */
  tareGrams: number;
};

/** A weighing as a flow from one place of the balance to the next. */
export function flowOf(
  row: Pick<WeighingRecord, 'id' | 'grams' | 'digits' | 'decimals' | 'unit'>,
  from: string | null,
  to: string | null,
): Flow {
  const sd = Math.hypot(readingStepGrams(row) / 2, row.grams * RELATIVE_SD);
  return { id: `${row.id}`, from, to, grams: row.grams, sd };
}

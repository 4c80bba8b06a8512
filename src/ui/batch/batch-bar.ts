/** The composition of a batch in grams. */
interface BatchGrams {
  lean: number;
  /** Fat contained in the trim. */
  trimFat: number;
  /** Fat contained in the added fat. */
  addedFat: number;
}

/**
 * Divides a batch into lean, fat of the trim and added fat. Lean includes the non-fat part of added fat.
 * @example divide([{ kind: 'trim', grams: 900, fat: 0.1 }, { kind: 'fat', grams: 100, fat: 0.9 }])
 * // { lean: 820, trimFat: 90, addedFat: 90 }
 */
export function divide(parts: readonly { kind: 'trim' | 'fat'; grams: number; fat: number }[]): BatchGrams {
  const sum = { lean: 0, trimFat: 0, addedFat: 0 };
  for (const { kind, grams, fat } of parts) {
    sum.lean += grams * (1 - fat);
    sum[kind === 'trim' ? 'trimFat' : 'addedFat'] += grams * fat;
  }
  return sum;
}

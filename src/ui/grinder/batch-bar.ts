/** Grams in a batch by what they are, whatever they came from. */
interface BatchGrams {
  lean: number;
  /** Fat that was in the trim. */
  trimFat: number;
  /** Fat that came with fat weighed in. */
  addedFat: number;
}

/**
 * Divides a batch into lean, fat of the trim and added fat. Lean is everything that is not fat, also in the fat
 * weighed in: back fat is not all fat.
 * @example divide([{ kind: 'trim', grams: 900, fat: 0.1 }, { kind: 'fat', grams: 100, fat: 0.9 }])
 *   // { lean: 820, trimFat: 90, addedFat: 90 }
 */
export function divide(parts: readonly { kind: 'trim' | 'fat'; grams: number; fat: number }[]): BatchGrams {
  const sum = { lean: 0, trimFat: 0, addedFat: 0 };
  for (const { kind, grams, fat } of parts) {
    sum.lean += grams * (1 - fat);
    sum[kind === 'trim' ? 'trimFat' : 'addedFat'] += grams * fat;
  }
  return sum;
}

/** Fat of the meat block, of the raw product and of the finished one, by the same sums as a blend. */
import { batchOf } from '../blend/batch.ts';
import { readRecipe } from '../blend/input.ts';
import type { BlendSource } from '../blend/types.ts';
import { requireFinite, ValidationError } from '../values/validation-error.ts';

export type BlockSource = Pick<BlendSource, 'id' | 'fat' | 'fatSd' | 'fatCovariance'> & {
  readonly grams: number;
};

export interface FatShare {
  readonly fat: number;
  /** Holds the fat 9 times in 10. */
  readonly low: number;
  readonly high: number;
}

export interface BlockFat {
  readonly block: FatShare;
  /** Of meat with all that is added, which holds no fat. */
  readonly raw: FatShare;
  /** Of the finished weight where one is known, all fat still in it: what drips off makes it less. */
  readonly finished: FatShare | null;
}

/**
 * @param weights grams of what is added, and of the finished product where it was weighed or is expected
 * @throws ValidationError those of a blend's sources (`share.out-of-range`, `grams.negative`, `id.duplicate` …), `blend.no-size`
 *   (no meat), `grams.not-positive`, `finished.below-fat` (lighter than the fat in it)
 */
export function blockFat(
  sources: readonly BlockSource[],
  { addedGrams, finishedGrams }: { addedGrams: number; finishedGrams?: number },
): BlockFat {
  const request = {
    sources: sources.map(({ grams, ...source }) => ({
      ...source,
      availableGrams: grams,
      costPerKg: 0,
      useAll: true,
    })),
    fat: { min: 0, max: 1 },
  };
  const recipe = readRecipe(request);
  const { fat, fatRange, batchGrams } = batchOf(
    request,
    recipe,
    recipe.sources.map(({ availableGrams }) => availableGrams),
  );
  if (requireFinite(addedGrams, 'addedGrams') < 0)
    throw new ValidationError('grams.negative', 'addedGrams', { grams: addedGrams });
  const spread = (grams: number): FatShare => ({
    fat: (fat * batchGrams) / grams,
    low: (fatRange.low * batchGrams) / grams,
    high: Math.min(1, (fatRange.high * batchGrams) / grams),
  });
  if (finishedGrams !== undefined && !(requireFinite(finishedGrams, 'finishedGrams') > 0))
    throw new ValidationError('grams.not-positive', 'finishedGrams', { grams: finishedGrams });
  const finished = finishedGrams === undefined ? null : spread(finishedGrams);
  if (finished && finished.fat > 1) throw new ValidationError('finished.below-fat', 'finishedGrams');
  return { block: spread(batchGrams), raw: spread(batchGrams + addedGrams), finished };
}

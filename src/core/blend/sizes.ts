import { RELATIVE_TOLERANCE } from './batch.ts';
import { isStepped, type Recipe } from './input.ts';

/** Batch sizes on a grid: the mandatory grams plus multiples of the step. */
export interface SizesInSteps {
  readonly low: number;
  readonly high: number;
  readonly step: number;
}

/**
 * The grid sizes nearest to `size`. `low` and `high` are equal, or two neighbours where `size` is midway between them; `low`
 * above `high` means none. Null where a source is continuous or the steps are not all multiples of the finest: then there is
 * no common grid.
 */
export function sizesInSteps(recipe: Recipe, size: number): SizesInSteps | null {
  const chosen = recipe.sources.filter((source) => !source.useAll);
  if (chosen.length === 0 || !chosen.every(isStepped)) return null;
  const steps = chosen.map(({ stepGrams }) => stepGrams as number);
  const step = Math.min(...steps);
  if (!steps.every((one) => isWhole(one / step))) return null;
  const fixed = recipe.sources.reduce((sum, one) => sum + (one.useAll ? one.availableGrams : 0), 0);
  const exact = (size - fixed) / step;
  const rounding = (RELATIVE_TOLERANCE * size) / step / 2;
  const least = fixed > 0 ? 0 : 1;
  const low = Math.max(least, Math.ceil(exact - 0.5 - rounding));
  const high = Math.floor(exact + 0.5 + rounding);
  return { low: fixed + low * step, high: fixed + high * step, step };
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) <= RELATIVE_TOLERANCE * value;
}

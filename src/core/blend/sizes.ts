import { RELATIVE_TOLERANCE } from './batch.ts';
import { isStepped, type Recipe } from './input.ts';

/** A batch weighs a multiple of its step more than what goes in anyway; grams. */
export interface SizesInSteps {
  readonly low: number;
  readonly high: number;
  readonly step: number;
}

/**
 * The nearest sizes to `size` that one scale can weigh out: the trim that all goes in and a whole number of steps.
 * `low` and `high` are one size, or two where `size` lies in the middle between them; `low` above `high`: none.
 * Null where something is weighed out freely or where the steps are not all multiples of the finest, for then sizes
 * have no common step.
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

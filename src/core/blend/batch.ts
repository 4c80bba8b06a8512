/** Converts the solver's columns to weights, and verifies independently that they satisfy the request. */
import { isStepped, type Recipe } from './input.ts';
import { STEP_COUNT_TOLERANCE } from './model.ts';
import { fatMassVariance } from './fat-variance.ts';
import type { Batch, BlendRequest } from './types.ts';
import { normalCdf, normalQuantile } from '../stats/distributions.ts';
import { ValidationError } from '../values/validation-error.ts';

/** Share of the batch (or of fat) by which rounding may violate a limit: a thousandth of a gram in a tonne. */
export const RELATIVE_TOLERANCE = 1e-9;
const RANGE_LEVEL = 0.9;

/** Grams of each source: steps rounded to integers, values within rounding of a limit moved to it. */
export function gramsOf(recipe: Recipe, values: readonly number[]): number[] {
  return recipe.sources.map((source, i) => {
    const value = values[i] as number;
    if (source.useAll) return source.availableGrams;
    if (isStepped(source)) return Math.max(0, Math.round(value)) * (source.stepGrams as number);
    const grams = value * recipe.massUnit;
    if (grams < RELATIVE_TOLERANCE * recipe.massUnit) return 0;
    return source.availableGrams - grams < RELATIVE_TOLERANCE * recipe.massUnit
      ? source.availableGrams
      : grams;
  });
}

/** Mean and standard deviation of the batch's fat mass in grams. */
export function fatMass(recipe: Recipe, grams: readonly number[]): { mean: number; sd: number } {
  const mean = recipe.sources.reduce((sum, source, i) => sum + source.fat * (grams[i] as number), 0);
  return { mean, sd: Math.sqrt(fatMassVariance(recipe, grams)) };
}

/** The batch as reported, its parts in the order of the request. */
export function batchOf(request: BlendRequest, recipe: Recipe, grams: readonly number[]): Batch {
  const batchGrams = grams.reduce((sum, part) => sum + part, 0);
  const byId = new Map(recipe.sources.map((source, i) => [source.id, grams[i] as number]));
  const mass = fatMass(recipe, grams);
  const fat = mass.mean / batchGrams;
  const sd = mass.sd / batchGrams;
  const halfWidth = normalQuantile((1 + RANGE_LEVEL) / 2) * sd;
  return {
    parts: request.sources.map(({ id }) => {
      const part = byId.get(id) as number;
      return { id, grams: part, share: part / batchGrams };
    }),
    batchGrams,
    fat,
    cost: costOf(recipe, grams),
    fatRange: { low: Math.max(0, fat - halfWidth), high: Math.min(1, fat + halfWidth), level: RANGE_LEVEL },
    ...(request.sureBelow && { probabilityBelow: probabilityBelow(request.sureBelow.fat, fat, sd) }),
  };
}

/** Minor units, not rounded. */
export function costOf(recipe: Recipe, grams: readonly number[]): number {
  return recipe.sources.reduce((sum, source, i) => sum + ((grams[i] as number) / 1000) * source.costPerKg, 0);
}

/** @throws ValidationError `blend.unproven` when a batch violates a hard constraint by more than rounding */
export function verifyHardConstraints(recipe: Recipe, grams: readonly number[]): void {
  const total = grams.reduce((sum, part) => sum + part, 0);
  recipe.sources.forEach((source, i) => {
    const part = grams[i] as number;
    const step = isStepped(source) ? (source.stepGrams as number) * STEP_COUNT_TOLERANCE : 0;
    verify(part >= 0 && part <= source.availableGrams + step, source.id);
    verify(part >= ((source.minShare ?? 0) - RELATIVE_TOLERANCE) * total, source.id);
    verify(part <= ((source.maxShare ?? 1) + RELATIVE_TOLERANCE) * total, source.id);
  });
}

/** @throws ValidationError `blend.unproven` when a plan violates any constraint by more than rounding */
export function verifyPlan(
  recipe: Recipe,
  grams: readonly number[],
  batch: Batch,
  sizeTolerance: number,
): void {
  verifyHardConstraints(recipe, grams);
  const { size, fat, sureBelow } = recipe;
  verify(batch.batchGrams > 0, 'batchGrams');
  verify(batch.fat >= fat.min - RELATIVE_TOLERANCE && batch.fat <= fat.max + RELATIVE_TOLERANCE, 'fat');
  if (size !== null)
    verify(Math.abs(batch.batchGrams - size) <= sizeTolerance + RELATIVE_TOLERANCE * size, 'batchGrams');
  if (sureBelow) {
    const { mean, sd } = fatMass(recipe, grams);
    const surely = (mean + normalQuantile(sureBelow.probability) * sd) / batch.batchGrams;
    verify(surely <= sureBelow.fat + RELATIVE_TOLERANCE, 'sureBelow');
  }
}

function verify(holds: boolean, rule: string): void {
  if (!holds) throw new ValidationError('blend.unproven', rule, { rule });
}

function probabilityBelow(limit: number, mean: number, sd: number): number {
  if (sd === 0) return mean <= limit + RELATIVE_TOLERANCE ? 1 : 0;
  return normalCdf((limit - mean) / sd);
}

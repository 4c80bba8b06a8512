/** Turns the solver's columns into weights, and proves in our own arithmetic that they obey what was asked. */
import { isStepped, type Recipe } from './input.ts';
import { STEP_SLACK } from './model.ts';
import { fatMassVariance } from './spread.ts';
import type { Batch, BlendRequest } from './types.ts';
import { normalCdf, normalQuantile } from '../stats/distributions.ts';
import { ValidationError } from '../values/validation-error.ts';

/** Share of the batch (or of fat) by which arithmetic may miss a limit: a thousandth of a gram in a tonne. */
export const SLACK = 1e-9;
const RANGE_LEVEL = 0.9;

/** Grams of each source of the recipe: whole steps made whole, values within rounding of a limit put on it. */
export function gramsOf(recipe: Recipe, values: readonly number[]): number[] {
  return recipe.sources.map((source, i) => {
    const value = values[i] as number;
    if (source.useAll) return source.availableGrams;
    if (isStepped(source)) return Math.max(0, Math.round(value)) * (source.stepGrams as number);
    const grams = value * recipe.massUnit;
    if (grams < SLACK * recipe.massUnit) return 0;
    return source.availableGrams - grams < SLACK * recipe.massUnit ? source.availableGrams : grams;
  });
}

/** Mean and standard deviation of the batch's fat mass in grams. */
export function fatMass(recipe: Recipe, grams: readonly number[]): { mean: number; sd: number } {
  const mean = recipe.sources.reduce((sum, source, i) => sum + source.fat * (grams[i] as number), 0);
  return { mean, sd: Math.sqrt(fatMassVariance(recipe, grams)) };
}

/** The batch as it is reported, its parts in the order of the request. */
export function batchOf(request: BlendRequest, recipe: Recipe, grams: readonly number[]): Batch {
  const batchGrams = grams.reduce((sum, part) => sum + part, 0);
  const byId = new Map(recipe.sources.map((source, i) => [source.id, grams[i] as number]));
  const mass = fatMass(recipe, grams);
  const fat = mass.mean / batchGrams;
  const sd = mass.sd / batchGrams;
  const reach = normalQuantile((1 + RANGE_LEVEL) / 2) * sd;
  return {
    parts: request.sources.map(({ id }) => {
      const part = byId.get(id) as number;
      return { id, grams: part, share: part / batchGrams };
    }),
    batchGrams,
    fat,
    cost: costOf(recipe, grams),
    fatRange: { low: Math.max(0, fat - reach), high: Math.min(1, fat + reach), level: RANGE_LEVEL },
    ...(request.sureBelow && { probabilityBelow: probabilityBelow(request.sureBelow.fat, fat, sd) }),
  };
}

/** Minor units, not rounded. */
export function costOf(recipe: Recipe, grams: readonly number[]): number {
  return recipe.sources.reduce((sum, source, i) => sum + ((grams[i] as number) / 1000) * source.costPerKg, 0);
}

/** @throws ValidationError `blend.unproven` when a batch breaks a ground rule by more than rounding */
export function proveGroundRules(recipe: Recipe, grams: readonly number[]): void {
  const total = grams.reduce((sum, part) => sum + part, 0);
  recipe.sources.forEach((source, i) => {
    const part = grams[i] as number;
    const step = isStepped(source) ? (source.stepGrams as number) * STEP_SLACK : 0;
    prove(part >= 0 && part <= source.availableGrams + step, source.id);
    prove(part >= ((source.minShare ?? 0) - SLACK) * total, source.id);
    prove(part <= ((source.maxShare ?? 1) + SLACK) * total, source.id);
  });
}

/** @throws ValidationError `blend.unproven` when a plan breaks any rule by more than rounding */
export function provePlan(
  recipe: Recipe,
  grams: readonly number[],
  batch: Batch,
  sizeTolerance: number,
): void {
  proveGroundRules(recipe, grams);
  const { size, fat, sureBelow } = recipe;
  prove(batch.batchGrams > 0, 'batchGrams');
  prove(batch.fat >= fat.min - SLACK && batch.fat <= fat.max + SLACK, 'fat');
  if (size !== null) prove(Math.abs(batch.batchGrams - size) <= sizeTolerance + SLACK * size, 'batchGrams');
  if (sureBelow) {
    const { mean, sd } = fatMass(recipe, grams);
    const surely = (mean + normalQuantile(sureBelow.probability) * sd) / batch.batchGrams;
    prove(surely <= sureBelow.fat + SLACK, 'sureBelow');
  }
}

function prove(holds: boolean, rule: string): void {
  if (!holds) throw new ValidationError('blend.unproven', rule, { rule });
}

function probabilityBelow(limit: number, mean: number, sd: number): number {
  if (sd === 0) return mean <= limit + SLACK ? 1 : 0;
  return normalCdf((limit - mean) / sd);
}

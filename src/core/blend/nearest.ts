/** The nearest batch to an infeasible request. The hard constraints are never relaxed. */
import type { Recipe } from './input.ts';
import { RELATIVE_TOLERANCE } from './batch.ts';
import { sizeTolerance, minimisingSizeDeviation, withSizeNear } from './cheapest.ts';
import { hardConstraints, sizeColumn, withColumn, withFat, withSize } from './model.ts';
import type { Program } from './program.ts';
import { leastShare } from './ratio.ts';
import { solveBlend, solveChanceConstrained } from './chance-constraint.ts';
import type { InfeasibleReason } from './types.ts';

/** Share of half a scale step within which two sizes are equal: well above the solver's tolerance, well below a step. */
const SIZE_TIE_SHARE = 0.02;

/**
 * Fat first, then size, then cost. 1: a batch of another size that keeps every requirement on fat, its size as near
 * as possible; skipped when only the scale's steps are in the way, because it would find some tiny batch that
 * happens to fit. 2: the wanted size, or the nearest feasible one, its fat as near as possible; where only the
 * probability is missed, the fat stays in its range and the probability is missed by as little as possible.
 * @returns grams in the order of the recipe's sources, or null when no batch is feasible
 */
export async function nearestBatch(recipe: Recipe, why: InfeasibleReason): Promise<readonly number[] | null> {
  const constraints = hardConstraints(recipe);
  const { size } = recipe;
  if (size === null) return nearestFat(recipe, constraints, why);
  if (why.code !== 'steps') {
    const withFatLimits = withFat(constraints, recipe, recipe.fat);
    const other = await solveChanceConstrained(recipe, minimisingSizeDeviation(withFatLimits, recipe, size));
    if (other && weightOf(other.grams) > RELATIVE_TOLERANCE * size) return other.grams;
  }
  const sized = await nearestFat(recipe, withSizeNear(constraints, recipe, size), why);
  if (sized) return sized;
  const nearest = await solveBlend(recipe, minimisingSizeDeviation(constraints, recipe, size));
  const weight = nearest ? weightOf(nearest.grams) : 0;
  if (weight <= RELATIVE_TOLERANCE * size) return null;
  const halfWidth = Math.max(sizeTolerance(recipe) * SIZE_TIE_SHARE, RELATIVE_TOLERANCE * weight);
  return nearestFat(recipe, withSize(constraints, recipe, weight - halfWidth, weight + halfWidth), why);
}

async function nearestFat(
  recipe: Recipe,
  constraints: Program,
  why: InfeasibleReason,
): Promise<readonly number[] | null> {
  const slackColumn = constraints.columns.length;
  const open = withColumn(constraints, { lower: 0, upper: Infinity, cost: 0 });
  const unsure = why.code === 'not-sure';
  const program = withFat(open, recipe, recipe.fat, unsure ? undefined : slackColumn);
  const found = await leastShare(recipe, program, [[slackColumn, 1]], { promise: unsure, slackColumn });
  return found && found.values[sizeColumn(recipe)] !== 0 ? found.grams : null;
}

function weightOf(grams: readonly number[]): number {
  return grams.reduce((sum, part) => sum + part, 0);
}

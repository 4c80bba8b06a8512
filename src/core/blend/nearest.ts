/** The nearest batch that can be made when not every wish can be met. The ground rules are never bent. */
import type { Recipe } from './input.ts';
import { SLACK } from './batch.ts';
import { sizeTolerance, withLeastMiss, withSizeNear } from './cheapest.ts';
import { groundRules, sizeColumn, withColumn, withFat, withSize } from './model.ts';
import type { Program } from './program.ts';
import { leastShare } from './ratio.ts';
import { solveBlend, solveSure } from './chance-constraint.ts';
import type { WhyImpossible } from './types.ts';

/** Part of half a scale step within which two sizes are one: well above the solver's tolerance, well below a step. */
const SAME_SIZE = 0.02;

/**
 * Fat first, then size, then cost. 1: a batch of another size that keeps every wish about fat, its size as near
 * as can be; not tried when only the scale's steps are in the way, where it would find some tiny batch that
 * happens to come out even. 2: the wanted size, or the nearest that can be made, its fat as near as can be; of a
 * batch that is merely not sure enough, the fat stays in its range and the promise is missed by as little as
 * can be. @returns grams in the order of the recipe's sources, or null when no batch can be made at all
 */
export async function nearestBatch(recipe: Recipe, why: WhyImpossible): Promise<readonly number[] | null> {
  const ground = groundRules(recipe);
  const { size } = recipe;
  if (size === null) return nearestFat(recipe, ground, why);
  if (why.code !== 'steps') {
    const kept = withFat(ground, recipe, recipe.fat);
    const other = await solveSure(recipe, withLeastMiss(kept, recipe, size));
    if (other && weightOf(other.grams) > SLACK * size) return other.grams;
  }
  const sized = await nearestFat(recipe, withSizeNear(ground, recipe, size), why);
  if (sized) return sized;
  const nearest = await solveBlend(recipe, withLeastMiss(ground, recipe, size));
  const weight = nearest ? weightOf(nearest.grams) : 0;
  if (weight <= SLACK * size) return null;
  const hair = Math.max(sizeTolerance(recipe) * SAME_SIZE, SLACK * weight);
  return nearestFat(recipe, withSize(ground, recipe, weight - hair, weight + hair), why);
}

async function nearestFat(
  recipe: Recipe,
  ground: Program,
  why: WhyImpossible,
): Promise<readonly number[] | null> {
  const off = ground.columns.length;
  const open = withColumn(ground, { lower: 0, upper: Infinity, cost: 0 });
  const unsure = why.code === 'not-sure';
  const program = withFat(open, recipe, recipe.fat, unsure ? undefined : off);
  const found = await leastShare(recipe, program, [[off, 1]], { promise: unsure, off });
  return found && found.values[sizeColumn(recipe)] !== 0 ? found.grams : null;
}

function weightOf(grams: readonly number[]): number {
  return grams.reduce((sum, part) => sum + part, 0);
}

/** Blends lean trim and fat: the two-part balance, and the cheapest batch from any number of sources. */
import { batchOf, verifyHardConstraints, verifyPlan, RELATIVE_TOLERANCE } from './batch.ts';
import { cheapestInTime, sizeTolerance } from './cheapest.ts';
import { readRecipe, withoutSteps, type Recipe } from './input.ts';
import { nearestBatch } from './nearest.ts';
import type { BlendPlan, BlendRequest, InfeasibleBlend, InfeasibleReason } from './types.ts';
import { explain } from './infeasible.ts';
import { ValidationError } from '../values/validation-error.ts';

export { fatToAdd, type FatToAdd, type TwoPartBlend } from './two-part.ts';
export type * from './types.ts';

/**
 * The cheapest batch that uses the mandatory sources, keeps the size, the fat range and the share limits, and
 * weighs in whole scale steps where requested: a linear (with steps, integer) program solved by HiGHS. Every
 * constraint is then verified independently to one part in 10⁹ (with steps the cost is minimal to one part in 10⁵).
 * Without `batchGrams` the batch is as small as possible: mandatory trim gets exactly the fat that reaches
 * `fat.min`, unless adding more saves money.
 *
 * When the request is infeasible the answer gives the reason, the missing amounts and the nearest batch. The fat
 * range is never widened for scale steps; a range that falls between whole steps is `impossible` with code `steps`.
 *
 * @throws ValidationError for bad input: `sources.empty`, `sources.too-many`, `id.empty`, `id.duplicate`,
 *   `number.not-finite`, `share.out-of-range`, `range.reversed`, `grams.negative`, `grams.not-positive`,
 *   `step.not-positive`, `probability.out-of-range`, `blend.no-size`; for the solver: `blend.too-long`,
 *   `blend.solver`, and `blend.unproven` when an answer fails the check
 * @example
 * // 10 kg of elk trim at 6 % to 12.5 % with pork back fat (88.69 %): 10 × 6.5 / 76.19 = 0.853 kg
 * await planBlend({ sources: [
 *     { id: 'elk', fat: 0.06, availableGrams: 10_000, costPerKg: 0, useAll: true },
 *     { id: 'back fat', fat: 0.8869, availableGrams: 5_000, costPerKg: 300 },
 *   ],
 *   fat: { min: 0.125, max: 0.13 },
 * });
 */
export async function planBlend(request: BlendRequest): Promise<BlendPlan | InfeasibleBlend> {
  const recipe = readRecipe(request);
  const solved = await cheapestInTime(recipe);
  if (!solved || solved === 'too long') return infeasible(request, recipe, solved === null);
  const batch = batchOf(request, recipe, solved.grams);
  verifyPlan(recipe, solved.grams, batch, sizeTolerance(recipe));
  return { kind: 'plan', ...batch };
}

async function infeasible(request: BlendRequest, recipe: Recipe, proven: boolean): Promise<InfeasibleBlend> {
  const { why, reach, missing } = await explain(withoutSteps(recipe), proven);
  const grams = await nearestInTime(recipe, why);
  if (!grams) return { kind: 'impossible', why, nearest: null, reach, missing };
  verifyHardConstraints(recipe, grams);
  const batch = batchOf(request, recipe, grams);
  const { min, max } = recipe.fat;
  const fatOff = Math.max(min - batch.fat, batch.fat - max);
  const nearest = {
    ...batch,
    fatOff: fatOff > RELATIVE_TOLERANCE ? fatOff : 0,
    gramsOff: recipe.size === null ? 0 : batch.batchGrams - recipe.size,
  };
  return { kind: 'impossible', why, nearest, reach, missing };
}

/** The nearest batch is optional: null where the search takes too long. */
async function nearestInTime(recipe: Recipe, why: InfeasibleReason): Promise<readonly number[] | null> {
  try {
    return await nearestBatch(recipe, why);
  } catch (problem) {
    if (problem instanceof ValidationError && problem.code === 'blend.too-long') return null;
    throw problem;
  }
}

/** Finds the first reason why a request is infeasible, and the missing amounts. */
import { type Recipe } from './input.ts';
import { RELATIVE_TOLERANCE } from './batch.ts';
import { fatTerms } from './cheapest.ts';
import { missingGrams } from './missing.ts';
import { hardConstraints, sizeColumn, withFat, withGoal, withSize } from './model.ts';
import { leastShare } from './ratio.ts';
import { solveBlend, solveChanceConstrained } from './chance-constraint.ts';
import type { InfeasibleBlend, InfeasibleReason } from './types.ts';

type Explained = Pick<InfeasibleBlend, 'why' | 'reach' | 'missing'>;
type Range = { low: number; high: number };

/**
 * The feasible sizes form an interval, and so do the feasible fats at one size (both sets are convex). The constraints are
 * tested in order: share limits, size, fat, probability; if each holds, the steps are the reason. `recipe` has continuous
 * sources; `proven` says whether the search in whole steps was exhaustive.
 */
export async function explain(recipe: Recipe, proven: boolean): Promise<Explained> {
  const sizes = await sizeRange(recipe, true);
  const { size } = recipe;
  const missed = size !== null && (!sizes || size > sizes.high || size < sizes.low);
  if (!sizes || missed) {
    const why = (await sizeReason(recipe, sizes)) ?? { code: 'shares' };
    const reach = sizes && (await fatReach(recipe, nearestIn(sizes, size)));
    return { why, reach, missing: why.code === 'too-little' ? await missingGrams(recipe) : [] };
  }
  const reach = (await fatReach(recipe, size)) ?? { lowest: 0, highest: 1 };
  const { min, max } = recipe.fat;
  if (reach.highest < min - RELATIVE_TOLERANCE || reach.lowest > max + RELATIVE_TOLERANCE) {
    const missing = await missingGrams(recipe);
    return { why: fatReason(recipe, reach, missing.length > 0), reach, missing };
  }
  return { why: (await certaintyReason(recipe)) ?? { code: 'steps', proven }, reach, missing: [] };
}

async function sizeReason(recipe: Recipe, sizes: Range | null): Promise<InfeasibleReason | null> {
  const { size } = recipe;
  const open = await sizeRange(recipe, false);
  if (size === null) return null;
  if (!open) return { code: 'too-little', mostGrams: 0, missingGrams: size };
  if (size > open.high)
    return { code: 'too-little', mostGrams: sizes?.high ?? open.high, missingGrams: size - open.high };
  if (size < open.low) return { code: 'too-much', leastGrams: open.low, surplusGrams: open.low - size };
  return null;
}

function fatReason(
  recipe: Recipe,
  reach: { lowest: number; highest: number },
  enoughWould: boolean,
): InfeasibleReason {
  const fats = recipe.sources.map((source) => source.fat);
  const tooLean = reach.highest < recipe.fat.min;
  const never = tooLean ? Math.max(...fats) < recipe.fat.min : Math.min(...fats) > recipe.fat.max;
  const because = enoughWould ? 'amounts' : never ? 'sources' : 'limits';
  return tooLean
    ? { code: 'too-lean', highestFat: reach.highest, because }
    : { code: 'too-fat', lowestFat: reach.lowest, because };
}

/** `not-sure` where the request is feasible without `sureBelow`, but not with it. */
async function certaintyReason(recipe: Recipe): Promise<InfeasibleReason | null> {
  if (!recipe.sureBelow) return null;
  const rules = withFat(hardConstraints(recipe), recipe, recipe.fat);
  const sized = recipe.size === null ? rules : withSize(rules, recipe, recipe.size, recipe.size);
  if (await solveChanceConstrained(recipe, withGoal(sized, recipe, 'cost'))) return null;
  return { code: 'not-sure' };
}

/** Least and greatest size under the hard constraints, grams; null when they are infeasible. */
async function sizeRange(recipe: Recipe, shares: boolean): Promise<Range | null> {
  const rules = hardConstraints(recipe, { shares });
  const size = sizeColumn(recipe);
  const least = await solveBlend(recipe, withGoal(rules, recipe, [[size, 1]]));
  const most = await solveBlend(recipe, withGoal(rules, recipe, [[size, -1]]));
  if (!least || !most) return null;
  const low = (least.values[size] as number) * recipe.massUnit;
  const high = (most.values[size] as number) * recipe.massUnit;
  return high > RELATIVE_TOLERANCE * recipe.massUnit ? { low, high } : null;
}

function nearestIn(sizes: Range, size: number | null): number | null {
  return size === null ? null : Math.min(sizes.high, Math.max(sizes.low, size));
}

/** Leanest and fattest batch of one size (of any size when null). */
async function fatReach(
  recipe: Recipe,
  size: number | null,
): Promise<{ lowest: number; highest: number } | null> {
  const rules = hardConstraints(recipe);
  const sized = size === null ? rules : withSize(rules, recipe, size, size);
  const fat = fatTerms(recipe);
  const lean = await leastShare(recipe, sized, fat);
  const fattest = await leastShare(
    recipe,
    sized,
    fat.map(([column, coefficient]) => [column, -coefficient]),
  );
  return lean && fattest && { lowest: lean.share, highest: -fattest.share };
}

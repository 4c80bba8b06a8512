import { costOf, RELATIVE_TOLERANCE } from './batch.ts';
import { cheapestInTime } from './cheapest.ts';
import { isStepped, type Recipe } from './input.ts';
import { WHOLE_STEP_GAP } from './program.ts';
import type { Solved } from './chance-constraint.ts';

const KILOGRAM = 1000;
/** Sources worth planning again for, and how many times a large list may be planned again in all. */
const MOST_SOURCES_TRIED = 20;
const MOST_WORK = 5000;

/**
 * For each used-up source that does not have to go in anyway: how many minor units the same wish would cost less
 * with one kilogram more of it on hand. Planned again, not read off the solver's marginal prices, which hold only
 * for the next gram and may promise a saving that the second gram no longer brings. They serve as a filter: cost
 * falls ever more slowly as a source grows, so a marginal price of 0 proves that the kilogram is worth 0.
 *
 * Of more than 20 used-up sources with a marginal price the 20 dearest are tried (fewer in lists of more than
 * 250 sources); the others, and those whose new plan
 * takes too long to find, are left out of the answer, never guessed.
 */
export async function valueOfOneMoreKg(recipe: Recipe, plan: Solved): Promise<Record<string, number>> {
  const cost = costOf(recipe, plan.grams);
  const values: Record<string, number> = {};
  const usedUp = recipe.sources
    .map((source, index) => ({ source, index, slope: plan.slopes?.[index] }))
    .filter(({ source, index }) => !source.useAll && isUsedUp(recipe, index, plan.grams[index] as number));
  for (const { source } of usedUp.filter(({ slope }) => slope !== undefined && slope >= 0))
    values[source.id] = 0;
  const tried = usedUp
    .filter(({ slope }) => slope === undefined || slope < 0)
    .sort((a, b) => (a.slope ?? 0) - (b.slope ?? 0))
    .slice(0, Math.max(1, Math.min(MOST_SOURCES_TRIED, Math.floor(MOST_WORK / recipe.sources.length))));
  for (const { source, index } of tried) {
    const more = { ...source, availableGrams: source.availableGrams + KILOGRAM };
    const again = await cheapestInTime({ ...recipe, sources: recipe.sources.with(index, more) });
    if (!again || again === 'too long') continue;
    const saved = cost - costOf(recipe, again.grams);
    const noise = (plan.slopes ? RELATIVE_TOLERANCE : WHOLE_STEP_GAP) * Math.max(1, Math.abs(cost));
    values[source.id] = Math.abs(saved) <= noise ? 0 : saved;
  }
  return values;
}

/** Nothing of the source is left that the scale could still weigh out. */
function isUsedUp(recipe: Recipe, index: number, grams: number): boolean {
  const source = recipe.sources[index];
  if (!source) return false;
  const left = source.availableGrams - grams;
  return left < (isStepped(source) ? (source.stepGrams as number) : RELATIVE_TOLERANCE * recipe.massUnit);
}

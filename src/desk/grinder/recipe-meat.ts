/** The meat that a recipe asks for beside the trim, from the lots on hand. */
import { roundToStep, toGrams } from '../../core/values/units.ts';
import { recipeRowOf } from '../recipes/recipes.ts';
import { outputOf } from '../recipes/output.ts';
import type { Session } from '../session/session.ts';
import { fatSources, type BenchSource } from './blend-sources.ts';

export interface RecipeMeat {
  /** What goes in of each lot, all of it. */
  fats: BenchSource[];
  /** Bought meat by the recipe, and what of it is on hand, in grams. */
  needGrams: number;
  haveGrams: number;
}

/**
 * Bought meat in the recipe's proportion to so much trim, from the oldest lots, and as much of its own fat as the animals have.
 * Meat that is no fat of the shop's list is left to the batch sheet.
 * @throws ProblemError `recipe.unknown`
 */
export function recipeMeat(
  session: Session,
  recipeId: number,
  trimGrams: number,
  animalIds: readonly number[],
): RecipeMeat {
  const { bought, ownFatShare, trimShare } = outputOf(session, recipeRowOf(session, recipeId));
  const step = toGrams(session.settings.step, session.settings.unit);
  const gramsOf = (share: number): number =>
    trimShare === 0 ? 0 : roundToStep((trimGrams * share) / trimShare, step);
  const own = taken(fatSources(session, 'own', animalIds), gramsOf(ownFatShare));
  const shares = new Map<string, number>();
  for (const { source, share } of bought)
    if (source !== null) shares.set(source, (shares.get(source) ?? 0) + share);
  const wanted = [...shares].map(([source, share]) => ({ source, grams: gramsOf(share) }));
  const lots = wanted.flatMap(({ source, grams }) => taken(fatSources(session, source, animalIds), grams));
  return {
    fats: [...own, ...lots],
    needGrams: wanted.reduce((sum, { grams }) => sum + grams, 0),
    haveGrams: lots.reduce((sum, { source }) => sum + source.availableGrams, 0),
  };
}

/** So much of these lots, one after the other. */
function taken(lots: readonly BenchSource[], grams: number): BenchSource[] {
  let left = grams;
  return lots.flatMap((lot) => {
    const availableGrams = Math.min(lot.source.availableGrams, left);
    left -= availableGrams;
    if (availableGrams <= 0) return [];
    return [{ ...lot, source: { ...lot.source, availableGrams, stepGrams: undefined, useAll: true } }];
  });
}

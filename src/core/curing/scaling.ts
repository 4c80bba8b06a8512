/** A recipe scaled to the meat that was really weighed: the batch sheet's amounts. */
import { requireFinite, ValidationError } from '../values/validation-error.ts';
import { amountToWeigh, type AmountToWeigh } from './amount.ts';
import type { Library } from './ingredients.ts';
import { perGramOfMeat, requireRecipe, type CuringRecipe, type Role } from './recipe.ts';

export interface ScaledBatch {
  /** The meat block, which all else is reckoned on. */
  readonly greenGrams: number;
  readonly meat: readonly {
    readonly id: string;
    readonly grams: number;
    readonly share: number;
    /** Share in the recipe: the difference is what the shop may want to put right before it begins. */
    readonly recipeShare: number;
  }[];
  readonly additions: readonly (AmountToWeigh & { readonly ingredient: string; readonly role: Role })[];
  /** Meat and all amounts as they are to be weighed. */
  readonly totalGrams: number;
}

/** Steps of the scales in grams: the small one for cure and seasoning, the large one for water. */
export interface Scales {
  readonly smallStep: number;
  readonly largeStep: number;
}

/**
 * Cure and accelerator are rounded down to the step, everything else to the nearest one.
 * @param weighed grams by the id of each part of the meat block
 * @throws ValidationError `meat.missing` (a part without a weight; state 0 for none), `meat.unknown`, `grams.negative`,
 *   `recipe.no-meat`, and those of `requireRecipe` and `amountToWeigh`
 */
export function scaleRecipe(
  recipe: CuringRecipe,
  library: Library,
  weighed: Readonly<Record<string, number>>,
  { smallStep, largeStep }: Scales,
): ScaledBatch {
  requireRecipe(recipe, library);
  const known = new Set(recipe.meat.map(({ id }) => id));
  for (const id of Object.keys(weighed))
    if (!known.has(id)) throw new ValidationError('meat.unknown', id, { id });
  const grams = recipe.meat.map(({ id }) => {
    const one = Object.hasOwn(weighed, id) ? weighed[id] : undefined;
    if (one === undefined) throw new ValidationError('meat.missing', id, { id });
    if (requireFinite(one, id) < 0) throw new ValidationError('grams.negative', id, { grams: one });
    return one;
  });
  const greenGrams = grams.reduce((sum, one) => sum + one, 0);
  if (greenGrams === 0) throw new ValidationError('recipe.no-meat', 'weighed');
  const additions = recipe.additions.map(({ ingredient, role, amount }) => {
    const step = role === 'water' ? largeStep : smallStep;
    const rounding = role === 'cure' || role === 'accelerator' ? 'down' : 'nearest';
    const toWeigh = amountToWeigh(perGramOfMeat(amount) * greenGrams, step, rounding);
    // A little more or less water is no fault.
    return { ingredient, role, ...toWeigh, tooFine: toWeigh.tooFine && role !== 'water' };
  });
  return {
    greenGrams,
    meat: recipe.meat.map(({ id, share }, i) => {
      const one = grams[i] ?? 0;
      return { id, grams: one, share: one / greenGrams, recipeShare: share };
    }),
    additions,
    totalGrams: additions.reduce((sum, addition) => sum + addition.grams, greenGrams),
  };
}

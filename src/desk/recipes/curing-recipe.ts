/** A recipe of the book as the core reads it, and rules of a recipe that are no matter of figures. */
import { requireRecipe, type CuringRecipe } from '../../core/curing/recipe.ts';
import type { Library } from '../../core/curing/ingredients.ts';
import { parseReading } from '../../core/values/reading.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import type { RecipeAddition, RecipeBody } from '../contract/contract.ts';
import { coolingOption, lossKind } from '../supplied/smokehouse.ts';

export interface RunningMeat {
  readonly id: string;
  readonly kind: RecipeBody['meat'][number]['kind'];
  readonly name: string;
  readonly share: number;
  readonly fat: number | null;
}

/** @throws ValidationError `reading.*`, naming the addition */
export function curingRecipe(
  { additions }: Pick<RecipeBody, 'additions'>,
  meat: readonly RunningMeat[],
): CuringRecipe {
  return {
    meat,
    additions: additions.map(({ ingredientId, role, ...amount }, i) => ({
      ingredient: String(ingredientId),
      role,
      amount: { ...readAmount(amount, `additions[${i}].typed`), per: amount.per },
    })),
  };
}

/** Parts of the recipe by their place in it. */
export const recipeMeat = ({ meat }: Pick<RecipeBody, 'meat'>): RunningMeat[] =>
  meat.map((part, i) => ({ id: String(i), ...part }));

/**
 * Refuses a recipe that cannot be reckoned with. What exceeds a limit is no matter of this: it is saved and found.
 * @throws ValidationError those of `requireRecipe` and of the typed amounts; `recipe.class-needed`, `recipe.pickle` (an addition to a
 *   pickle that there is none of), `recipe.cure-place` (a cure beside the pickle), `recipe.no-cure`, `recipe.method-needed`,
 *   `recipe.no-heat` (ready to eat without heat)
 * @throws ProblemError `cooling.unknown`, `loss.kind-unknown`
 */
export function requireBody(body: RecipeBody, library: Library): void {
  requireRecipe(curingRecipe(body, recipeMeat(body)), library);
  const { additions, method, heat, casing } = body;
  const pickled = method === 'pumped' || method === 'immersed';
  const at = (i: number): string => `additions[${i}]`;
  additions.forEach(({ role, into }, i) => {
    if (into === 'pickle' && !pickled) throw new ValidationError('recipe.pickle', `${at(i)}.into`);
    if (role === 'cure' && pickled && into === 'meat')
      throw new ValidationError('recipe.cure-place', `${at(i)}.into`);
  });
  const cured = additions.some(({ role }) => role === 'cure');
  if (method === 'none' && cured) throw new ValidationError('recipe.method-needed', 'method');
  if (method !== 'none' && !cured) throw new ValidationError('recipe.no-cure', 'method');
  if (method !== 'none' && body.class === null) throw new ValidationError('recipe.class-needed', 'class');
  if (method === 'immersed' && body.immersedBy === null)
    throw new ValidationError('recipe.immersed-by', 'immersedBy');
  if (body.readyToEat && (body.finish === 'raw' || heat === null))
    throw new ValidationError('recipe.no-heat', 'heat');
  if (casing && casing.filledMm === null && casing.holdsTyped === '')
    throw new ValidationError('casing.size', 'casing');
  if (casing && casing.holdsTyped !== '') parseReading(casing.holdsTyped, 'lb');
  if (heat?.cooling) coolingOption(heat.cooling);
  lossKind(body.lossKind);
}

function readAmount({ typed, unit }: Pick<RecipeAddition, 'typed' | 'unit'>, field: string) {
  try {
    const reading = parseReading(typed, unit);
    return { value: reading.digits / 10 ** reading.decimals, unit: reading.unit };
  } catch (error) {
    throw error instanceof ValidationError
      ? new ValidationError(error.code, field, { ...error.with })
      : error;
  }
}

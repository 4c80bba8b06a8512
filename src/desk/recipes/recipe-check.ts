/** A recipe on a round weight of meat: what it comes to and what stands against it. */
import { allergensOfWhole } from '../../core/curing/ingredients.ts';
import { GRAMS_PER } from '../../core/values/units.ts';
import type { RecipeBody, RecipeCheck } from '../contract/contract.ts';
import type { Session } from '../session/session.ts';
import { curingRecipe, recipeMeat } from './curing-recipe.ts';
import type { Pantry } from './library.ts';
import { fatOf, reckon } from './reckon.ts';

/** @throws those of `reckon` */
export function checkRecipe(session: Session, body: RecipeBody, pantry: Pantry): RecipeCheck {
  const { unit, smallStep } = session.settings;
  const blockGrams = 100 * GRAMS_PER[unit];
  const whole = body.meat.reduce((sum, { share }) => sum + share, 0);
  const meat = recipeMeat(body).map((part) => ({ ...part, grams: (blockGrams * part.share) / whole }));
  const { scaled, ppm, findings, mayStart, takenGrams, saltGrams, waterGrams } = reckon(body, meat, pantry, {
    smallStep,
    largeStep: smallStep,
  });
  const raw = scaled.greenGrams + takenGrams;
  return {
    blockGrams,
    amounts: scaled.additions.map(({ ingredient, grams }) => ({
      ingredientId: Number(ingredient),
      name: pantry.library[ingredient]?.name ?? '',
      grams,
    })),
    totalGrams: raw,
    ppm,
    findings,
    mayStart,
    salt: saltGrams / raw,
    water: waterGrams / raw,
    fat: fatOf(meat),
    allergens: allergensIn(body, pantry),
  };
}

/** Allergens of all additions, ingredients by name. */
export function allergensIn(
  body: Pick<RecipeBody, 'additions'>,
  { library }: Pantry,
): RecipeCheck['allergens'] {
  const ids = curingRecipe(body, []).additions.map(({ ingredient }) => ingredient);
  const { contains, unknown } = allergensOfWhole(ids, library);
  const named = (id: string): string => library[id]?.name ?? id;
  return {
    contains: contains.map((one) => ({ ...one, from: one.from.map(named) })),
    unknown: unknown.map(named),
  };
}

/** What the owners of a batch ordered: patties or bulk, package size, and the fat of each cut sheet. */
import { instructionsOf } from '../animal/instructions.ts';
import { recipesOfOrders } from '../recipes/ordered.ts';
import type { Session } from '../session/session.ts';
import type { BatchPage, FatChoice, Instructions, PlanPart } from '../contract/contract.ts';

/**
 * Distinct patty sizes in grams that the owners ordered of this product, the first owner's package size in grams or null
 * without owners, each animal's grinds in the order of its cut sheet, and the recipe that all of them make it by.
 */
export function batchOrders(
  session: Session,
  animals: readonly { id: number; ticket: string }[],
  product: string,
): Pick<BatchPage, 'patties' | 'packageGrams' | 'orders' | 'recipe'> {
  const sheets = animals.map(({ id }) => instructionsOf(session, id));
  const recipeOf = recipesOfOrders(session);
  const patties = sheets.flatMap(
    (sheet) => grindsOf(sheet).find((grind) => grind.product === product)?.pattyGrams ?? [],
  );
  const made = sheets.map((sheet) => {
    const grind = grindsOf(sheet).find((one) => one.product === product);
    return grind ? recipeOf(grind) : null;
  });
  const recipes = new Set(made.map((one) => one?.recipeId));
  const recipe = made[0] ? { id: made[0].recipeId, name: made[0].name } : null;
  return {
    patties: [...new Set(patties)],
    packageGrams: sheets[0]?.packageGrams ?? null,
    recipe: recipes.size === 1 ? recipe : null,
    orders: sheets.map((sheet, at) => ({
      ticket: animals[at]?.ticket ?? '',
      wants: grindsOf(sheet).map((grind) => {
        const { product, fat, targetFat } = grind;
        const recipe = recipeOf(grind);
        return { product, fat, targetFat, recipe: recipe && { name: recipe.name } };
      }),
    })),
  };
}

const grindsOf = ({ alsoGround, grindProduct, fat, targetFat, pattyGrams, recipeId }: Instructions) => [
  ...alsoGround,
  { product: grindProduct, fat, targetFat, pattyGrams, recipeId },
];

/**
 * The fat that a plan adds: its source, `own` for fat saved from the animals, `none` without a target. Null if the trim
 * alone reached the target, so that no fat was chosen.
 */
export function addedFat(
  session: Session,
  targetFat: number | null,
  planned: readonly PlanPart[],
): FatChoice | null {
  const fat = planned.find(({ kind }) => kind === 'fat');
  if (!fat) return targetFat === null ? 'none' : null;
  if (fat.animalId !== null) return 'own';
  return session.book.fat.get(fat.fatLotId ?? 0)?.source ?? null;
}

/** Made batches at each step, for tests. */
import type { CallInput } from '../../../src/bridge/contract.ts';
import type { RecipeBody } from '../../../src/desk/contract/contract.ts';
import { cut, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { addIngredient, curedWith, PINK, PLAIN, SPICE } from '../recipes/recipe-of.ts';

/** Four digits throughout, so that the later name also comes later by name. */
let named = 1000;
export const newName = (what: string): string => `${what} ${(named += 1)}`;

export async function addRecipe(
  shop: FreshDesk,
  body: RecipeBody,
  product = 'Summer Sausage',
): Promise<number> {
  return (await shop.call('recipes.save', { name: newName('Recipe'), product, body })).id;
}

/** 4 oz of a 6.25 % cure and 28 oz of salt on 100 lb, cooked; a packet of the cure is in the shop. */
export async function summerSausage(
  shop: FreshDesk,
  more: Partial<RecipeBody> = {},
): Promise<{ recipeId: number; pink: number; salt: number }> {
  const pink = await addIngredient(shop, { ...PINK, name: newName('Pink cure') });
  const salt = await addIngredient(shop, { ...SPICE, name: newName('Salt') });
  const line = { unit: 'oz', per: '100 lb', into: 'meat' } as const;
  const body = curedWith(pink, '4', {
    readyToEat: true,
    heat: { level: 'log65', cooling: 'option-1', steps: [] },
    additions: [
      { ingredientId: salt, role: 'salt', typed: '28', ...line },
      { ingredientId: pink, role: 'cure', typed: '4', ...line },
    ],
    ...more,
  });
  return { recipeId: await addRecipe(shop, body), pink, salt };
}

/** An animal of its own hunter with so much trim. */
export async function trimOf(
  shop: FreshDesk,
  pounds: string,
  more: Partial<CallInput<'intake.takeIn'>> = {},
): Promise<number> {
  const hunter = { name: newName('Dana Whitlock'), phone: '555-0142' };
  const id = await takeIn(shop, { hunter, ...more });
  await cut(shop, id, { trim: pounds });
  return id;
}

/** Opens a batch on the trim of these animals and weighs all of it in. */
export async function opened(
  shop: FreshDesk,
  recipeId: number,
  trim: Readonly<Record<number, string>>,
): Promise<{ id: number; batchId: number; name: string }> {
  const animals = Object.keys(trim).map(Number);
  const made = await shop.call('made.open', { recipeId, animals });
  for (const animalId of animals)
    await shop.call('grinder.weighIn', {
      batchId: made.batchId,
      animalId,
      part: 'trim',
      typed: trim[animalId] ?? '',
    });
  return made;
}

/** A batch of 100 lb of one elk with salt and cure weighed as asked, not stuffed yet. */
export async function weighedOut(
  shop: FreshDesk,
  more: Partial<RecipeBody> = {},
): Promise<{ id: number; batchId: number; pink: number; salt: number; animalId: number; recipeId: number }> {
  const { recipeId, pink, salt } = await summerSausage(shop, more);
  const animalId = await trimOf(shop, '100');
  const made = await opened(shop, recipeId, { [animalId]: '100' });
  await shop.call('made.start', { id: made.id });
  await shop.call('made.weigh', { id: made.id, ingredientId: salt, typed: '794', lot: '' });
  await shop.call('made.weigh', { id: made.id, ingredientId: pink, typed: '113', lot: 'A-7' });
  return { ...made, pink, salt, animalId, recipeId };
}

/** The same, stuffed at 101.5 lb. */
export async function stuffed(shop: FreshDesk, more: Partial<RecipeBody> = {}) {
  const made = await weighedOut(shop, more);
  await shop.call('made.stage', { id: made.id, stage: 'stuffed', typed: '101.5', pieces: 30 });
  return made;
}

/** Ground game alone, raw: nothing to weigh but meat. */
export async function rawBatch(shop: FreshDesk) {
  const recipeId = await addRecipe(shop, PLAIN, 'Bulk Sausage');
  const animalId = await trimOf(shop, '50');
  const made = await opened(shop, recipeId, { [animalId]: '50' });
  return { ...made, animalId, recipeId };
}

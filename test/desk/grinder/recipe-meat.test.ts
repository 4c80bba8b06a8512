/** A grind by a recipe: the meat that it asks for beside the trim, with amounts worked by hand. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import type { RecipeBody } from '../../../src/desk/contract/contract.ts';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';
import { PLAIN } from '../recipes/recipe-of.ts';
import { addRecipe, trimOf } from '../smokehouse/made-of.ts';

const LB = 453.59237;
const PRODUCT = 'Snack sticks';
let shop: FreshDesk;
beforeEach(async () => (shop = await freshDesk()));
afterEach(() => shop.desk.close());

/** Three parts game and one part pork of half fat. */
const MEAT: RecipeBody['meat'] = [
  { kind: 'game', name: 'Game', share: 0.75, fat: null },
  { kind: 'pork', name: 'Pork', share: 0.25, fat: 0.5 },
];
const sticks = (meat = MEAT): Promise<number> => addRecipe(shop, { ...PLAIN, meat }, PRODUCT);

const buy = async (typed: string, source = 'pork-trim-50'): Promise<void> =>
  void (await shop.call('fat.receive', { source, typed }));

/** Its order asks for another fat than the recipe. */
const instructions: CallInput<'quotes.calculate'>['instructions'] = {
  cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: LB, extras: [], note: '',
  alsoGround: [{ product: PRODUCT, grams: 15 * LB, fat: 'beef-suet', targetFat: 0.3 }],
}; // prettier-ignore

const asked = (id: number, recipeId: number) => ({
  animals: [{ id, grams: 15 * LB }], fat: 'none', targetFat: null, recipeId,
}); // prettier-ignore

describe('a grind by a recipe', () => {
  it('is what waits for the grinder, in place of the fat of the order', async () => {
    const recipeId = await sticks();
    const id = await trimOf(shop, '40', { instructions });
    const { waiting } = await shop.call('grinder.get', {});
    const [first, rest] = waiting.find((one) => one.id === id)!.wants;
    expect(first).toMatchObject({
      product: PRODUCT,
      recipe: { id: recipeId, meat: [{ name: 'Game', share: 0.75 }, { name: 'Pork', share: 0.25 }] },
    }); // prettier-ignore
    expect(rest).toMatchObject({ product: 'Ground', recipe: null });
  });

  it('takes bought meat in the proportion of the recipe, the oldest lot first', async () => {
    const recipeId = await sticks();
    const id = await trimOf(shop, '40');
    await buy('2');
    await buy('30');
    await buy('30', 'beef-suet');
    const plan = await shop.call('grinder.plan', asked(id, recipeId));
    // A third of 15 lb is 5 lb: all of the first lot and 3 lb of the second.
    expect(plan).toMatchObject({ kind: 'plan' });
    const parts = plan.kind === 'plan' ? plan.parts : [];
    expect(parts.map(({ kind, grams }) => [kind, Math.round((grams / LB) * 100) / 100])).toEqual([
      ['trim', 15],
      ['fat', 2],
      ['fat', 3],
    ]);
    const { id: batchId } = await shop.call('grinder.start', {
      ...asked(id, recipeId),
      product: PRODUCT,
    });
    const { planned, orders } = await shop.call('grinder.getBatch', { id: batchId });
    expect(planned).toHaveLength(3);
    expect(orders[0]!.wants[0]).toMatchObject({ recipe: null });
  });

  it('says what is missing of it, also where there is none', async () => {
    const recipeId = await sticks();
    const id = await trimOf(shop, '40');
    const missing = async () => {
      const plan = await shop.call('grinder.plan', asked(id, recipeId));
      return plan.kind === 'not enough fat' ? [plan.target, Math.round((plan.missingGrams / LB) * 100) / 100] : plan.kind;
    }; // prettier-ignore
    expect(await missing()).toEqual([null, 5]);
    await buy('1.5');
    expect(await missing()).toEqual([null, 3.5]);
    await buy('3.5');
    expect(await missing()).toBe('plan');
  });

  it('of game alone takes no bought meat', async () => {
    const recipeId = await sticks([{ kind: 'game', name: 'Game', share: 1, fat: null }]);
    const id = await trimOf(shop, '40');
    await buy('30');
    const plan = await shop.call('grinder.plan', asked(id, recipeId));
    expect(plan).toMatchObject({ kind: 'plan', fatToAddGrams: 0 });
  });

  it('says on its page which recipe its orders make it by, and which batches of the smokehouse are open on it', async () => {
    const recipeId = await sticks();
    const [id, other] = [await trimOf(shop, '40', { instructions }), await trimOf(shop, '20')];
    const grind = await shop.call('grinder.start', { ...asked(id, recipeId), product: PRODUCT });
    const page = () => shop.call('grinder.getBatch', { id: grind.id });
    expect(await page()).toMatchObject({ recipe: { id: recipeId }, made: [] });
    const made = await shop.call('made.open', { recipeId, batchId: grind.id });
    expect((await page()).made).toEqual([{ id: made.id, name: made.name }]);
    await shop.call('made.void', { id: made.id, reason: 'by mistake' });
    expect((await page()).made).toEqual([]);
    // One owner's order names no such product, so the orders do not agree.
    const pooled = await shop.call('grinder.start', { animals: [{ id }, { id: other }], fat: 'none', targetFat: null, product: PRODUCT });
    expect((await shop.call('grinder.getBatch', { id: pooled.id })).recipe).toBeNull();
  }); // prettier-ignore
});

/** Quotes of what is made by a recipe, with figures worked by hand. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { CallInput, QuoteResult } from '../../../src/bridge/contract.ts';
import type { RecipeBody } from '../../../src/desk/contract/contract.ts';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';
import { priced } from '../pricing/priced-shop.ts';
import { addIngredient, PLAIN, SPICE } from '../recipes/recipe-of.ts';
import { addRecipe, newName, opened, trimOf } from '../smokehouse/made-of.ts';

const LB = 453.59237;
const STICKS = 'Snack sticks';
let shop: FreshDesk;
beforeEach(async () => (shop = await freshDesk()));
afterEach(() => shop.desk.close());

/** Three parts game and one part pork of half fat, with 2 % of salt. */
async function sticks(more: Partial<RecipeBody> = {}, product = STICKS): Promise<number> {
  const salt = await addIngredient(shop, { ...SPICE, name: newName('Salt') });
  const body: RecipeBody = {
    ...PLAIN,
    meat: [
      { kind: 'game', name: 'Game', share: 0.75, fat: null },
      { kind: 'pork', name: 'Pork', share: 0.25, fat: 0.5 },
    ],
    additions: [{ ingredientId: salt, role: 'salt', typed: '32', unit: 'oz', per: '100 lb', into: 'meat' }],
    finish: 'cooked',
    lossKind: 'sticks',
    ...more,
  };
  return addRecipe(shop, body, product);
}

/** A finished batch of 10 lb stuffed. */
async function batch(recipeId: number, packed: string): Promise<void> {
  const animalId = await trimOf(shop, '10');
  const { id, batchId } = await opened(shop, recipeId, { [animalId]: '10' });
  await shop.call('made.start', { id });
  await shop.call('made.stage', { id, stage: 'stuffed', typed: '10' });
  await shop.call('made.pack', { id, count: 6, typed: packed });
  await shop.call('grinder.finish', { batchId });
}

const ordered = { product: STICKS, grams: 15 * LB, fat: 'pork-back-fat', targetFat: 0.3 };
/** An elk of 400 lb on the hook, 15 lb of its trim for sticks. */
function ask(
  more: Partial<CallInput<'quotes.calculate'>['instructions']> = {},
): CallInput<'quotes.calculate'> {
  return {
    species: 'elk', brought: 'skinned', stage: 'hanging', typed: '400',
    instructions: {
      cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: LB, extras: [], note: '',
      alsoGround: [ordered], ...more,
    },
  }; // prettier-ignore
}

const quoted = (quote: QuoteResult, product = STICKS): QuoteResult['products'][number] => {
  const found = quote.products.find((one) => one.product === product);
  if (!found) throw new Error(product);
  return found;
};

describe('a quote of what is made by a recipe', () => {
  it('takes the meat of the recipe, adds its ingredients and says what is assumed of the loss', async () => {
    const recipeId = await sticks();
    const quote = await shop.call('quotes.calculate', ask());
    const { grams, recipe } = quoted(quote);
    // 15 lb of trim are three quarters of a block of 20 lb: 5 lb of pork; 0.4 lb of salt makes 20.4 lb.
    expect(recipe?.trimGrams.mean).toBeCloseTo(15 * LB, 6);
    expect(recipe?.boughtGrams.mean).toBeCloseTo(5 * LB, 6);
    expect(quote.fatToBuyGrams.mean).toBeCloseTo(5 * LB, 6);
    // Assumed: 8 in 10 products between 55 and 80 %, so the middle is 1 / (1 + e^-((ln(55/45) + ln(80/20)) / 2)) = 68.86 %.
    expect(grams.mean / LB).toBeCloseTo(20.4 * 0.6886, 2);
    expect(recipe).toMatchObject({ recipeId, forecast: { batches: 0, assumed: { low: 0.55, high: 0.8 } } });
    // The trim is sure, so the range is that of the loss; it is drawn 400 times.
    expect(grams.low / LB / 20.4).toBeCloseTo(recipe!.forecast.low, 1);
    expect(grams.high / LB / 20.4).toBeCloseTo(recipe!.forecast.high, 1);
    // 10 lb of sticks take 10 / 0.6886 / 1.02 of block, three quarters of it trim.
    expect(recipe!.takes.finishedGrams).toBeCloseTo(10 * LB, 6);
    expect(recipe!.takes.trim.middle / LB).toBeCloseTo((10 / 0.6886 / 1.02) * 0.75, 2);
  });

  it('learns from the shop’s batches: after five the range is theirs, and narrow', async () => {
    const recipeId = await sticks();
    const before = quoted(await shop.call('quotes.calculate', ask()));
    for (const packed of ['6.6', '6.5', '6.7', '6.62', '6.58']) await batch(recipeId, packed);
    const quote = await shop.call('quotes.calculate', ask());
    const { grams, recipe } = quoted(quote);
    expect(recipe?.forecast).toMatchObject({ batches: 5, assumed: null });
    // They came to 66 % on average: 20.4 × 0.66 = 13.46 lb.
    expect(grams.mean / LB).toBeCloseTo(13.46, 1);
    expect(grams.high - grams.low).toBeLessThan((before.grams.high - before.grams.low) / 4);
    // "10 lb of sticks take about 11 lb of trim": 10 / 0.66 / 1.02 × 0.75 = 11.14.
    expect(recipe!.takes.trim.middle / LB).toBeCloseTo(11.14, 1);
    // What goes home is what is packed: the meat that the quote without sticks comes to, less 15 lb of trim, and the sticks.
    const plain = await shop.call('quotes.calculate', ask({ alsoGround: [] }));
    const home = (plain.takeHomeGrams.mean - 15 * LB + grams.mean) / quote.takeHomeGrams.mean;
    expect(home).toBeCloseTo(1, 6);
  });

  it('charges the trim that it takes by recipe, certain before the loss is, and no less than the minimum', async () => {
    const recipeId = await sticks();
    const line = priced('sticks', 'trim', { unit: 'lb', amountMinor: 400, recipes: [recipeId] });
    const save = (least: number | null) =>
      shop.call('prices.save', { name: 'Ours', validFrom: '2026-10-01', lines: [{ ...line, least }] });
    await save(null);
    // 15 lb of the trim × $4.00.
    expect((await shop.call('quotes.calculate', ask())).price).toMatchObject({ low: 6000, mean: 6000, high: 6000 });
    await save(25);
    const { price } = await shop.call('quotes.calculate', ask());
    expect(price).toMatchObject({ mean: 10_000, lines: [{ label: 'sticks (min. 25 lb)', quantity: { mean: 25 } }] });
  }); // prettier-ignore

  it('charges the finished pound of the product and the pork that went in', async () => {
    const recipeId = await sticks();
    for (const packed of ['6.6', '6.6', '6.6', '6.6', '6.6']) await batch(recipeId, packed);
    const line = {
      rate: null,
      unit: 'lb' as const,
      species: null,
      brought: null,
      fatSource: null,
      taxRate: 0,
    };
    await shop.call('prices.save', {
      name: 'Ours',
      validFrom: '2026-10-01',
      lines: [
        { ...line, code: 'sticks', label: 'Sticks', basis: 'product', amountMinor: 600, products: [STICKS] },
        { ...line, code: 'pork', label: 'Pork', basis: 'fat', amountMinor: 300, fatSource: 'pork-trim-50' },
        { ...line, code: 'hook', label: 'Cutting', basis: 'hanging', amountMinor: 100 },
      ],
    }); // prettier-ignore
    const { price } = await shop.call('quotes.calculate', ask());
    const minor = (code: string) => price?.lines.find((one) => one.code === code);
    // 13.464 lb at 6.00, 5 lb of pork at 3.00, 400 lb on the hook at 1.00.
    expect(minor('sticks')!.mean / 100).toBeCloseTo(80.78, 0);
    expect(minor('pork')).toMatchObject({ low: 1500, mean: 1500, high: 1500 });
    expect(minor('hook')).toMatchObject({ low: 40_000, mean: 40_000, high: 40_000 });
    expect(price!.mean).toBe(40_000 + 1500 + minor('sticks')!.mean);
    // Nothing else is uncertain of this bill.
    expect(price!.high - price!.low).toBe(minor('sticks')!.high - minor('sticks')!.low);
    expect(price!.low).toBeLessThan(price!.mean);
  });

  it('ranges less than its parts together: an animal that gives much and a batch that loses little are two chances', async () => {
    await sticks();
    const all = await shop.call('quotes.calculate', ask({ alsoGround: [], grindProduct: STICKS }));
    const { grams, recipe } = quoted(all);
    const { low, high } = recipe!.trimGrams;
    const made = (trim: number, share: number) => (trim / 0.75) * 1.02 * share;
    const { forecast } = recipe!;
    expect(grams.low).toBeGreaterThan(made(low, forecast.low) * 1.01);
    expect(grams.high).toBeLessThan(made(high, forecast.high) * 0.99);
    // And more than the loss alone.
    const trim = recipe!.trimGrams.mean;
    expect(grams.high - grams.low).toBeGreaterThan(made(trim, forecast.high) - made(trim, forecast.low));
  });

  it('goes by the recipe that the cut sheet names, of several of one product', async () => {
    const first = await sticks();
    const jerky = await sticks({ lossKind: 'jerky', meat: PLAIN.meat });
    expect(quoted(await shop.call('quotes.calculate', ask())).recipe?.recipeId).toBe(first);
    const named = ask({ alsoGround: [{ ...ordered, recipeId: jerky }] });
    const { recipe, grams } = quoted(await shop.call('quotes.calculate', named));
    expect(recipe).toMatchObject({ recipeId: jerky, boughtGrams: { low: 0, mean: 0, high: 0 } });
    expect(grams.mean / LB).toBeCloseTo(15 * 1.02 * recipe!.forecast.middle, 6);
  });

  it('is ground with the fat of the order without a recipe, with one put away, and with one that takes no game', async () => {
    const without = await shop.call('quotes.calculate', ask());
    expect(quoted(without).recipe).toBeNull();
    const put = await sticks();
    expect(quoted(await shop.call('quotes.calculate', ask())).recipe).not.toBeNull();
    await shop.call('recipes.archive', { id: put });
    await sticks({ meat: [{ kind: 'pork', name: 'Pork', share: 1, fat: 0.5 }] });
    expect(await shop.call('quotes.calculate', ask())).toEqual(without);
  });
});

describe('fat needs of what is made by a recipe', () => {
  it('are the recipe’s share of the trim, not the fat of the order', async () => {
    await sticks();
    const trim = await trimOf(shop, '40', { instructions: ask().instructions });
    await shop.call('animals.setStage', { id: trim, stage: 'packing' });
    const { sources } = await shop.call('fat.getNeeds', {});
    // 15 lb of trim for sticks take 5 lb of pork, sure to the pound; 25 lb are ground lean.
    expect(sources.map(({ source }) => source)).toEqual(['pork-trim-50']);
    expect(sources[0]!.need.mean).toBeCloseTo(5 * LB, 6);
    await shop.call('quotes.save', { ...ask(), hunterName: 'Ana' });
    const [after] = (await shop.call('fat.getNeeds', {})).sources;
    expect(after?.quotes.count).toBe(1);
    expect(after!.quotes.need.mean).toBeCloseTo(5 * LB, 6);
  });

  it('of a batch that was opened are what the recipe asks for beside its trim, less what is weighed in', async () => {
    const recipeId = await sticks();
    const animalId = await trimOf(shop, '30');
    const { batchId } = await opened(shop, recipeId, { [animalId]: '30' });
    const need = async () => (await shop.call('fat.getNeeds', {})).sources[0]?.need.mean ?? 0;
    // 30 lb of trim are three quarters of 40 lb.
    expect((await need()) / LB).toBeCloseTo(10, 6);
    const lot = await shop.call('fat.receive', { source: 'pork-trim-50', typed: '20' });
    await shop.call('grinder.weighIn', { batchId, fatLotId: lot.id, part: 'fat added', typed: '7' });
    expect((await need()) / LB).toBeCloseTo(3, 6);
    await shop.call('grinder.weighIn', { batchId, fatLotId: lot.id, part: 'fat added', typed: '4' });
    expect(await need()).toBe(0);
  });
});

/** Prices by trim and by recipe, from the batch of the smokehouse to the bill, by hand. Common practice, no source; all prices are made up. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { draftOf, figures, priced, pricedShop } from '../pricing/priced-shop.ts';
import { cut, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { PLAIN } from '../recipes/recipe-of.ts';
import { addRecipe, opened, trimOf } from '../smokehouse/made-of.ts';

const SAUSAGE = 'Summer sausage';
const STICKS = 'Snack sticks';
const POUND = 453.59237;

const save = (shop: FreshDesk, lines: ReturnType<typeof priced>[]) =>
  shop.call('prices.save', { name: 'By trim', validFrom: '2026-10-01', taxRule: 'per line', lines });

/** So many pounds of the grind are started, stuffed and packed. */
async function packed(
  shop: FreshDesk,
  id: number,
  block: string,
  count: number,
  typed: string,
): Promise<void> {
  await shop.call('made.start', { id, portionTyped: block });
  await shop.call('made.stage', { id, stage: 'stuffed', typed: block });
  await shop.call('made.pack', { id, count, typed });
}

/** A line for sausage by its trim: $3.00 a pound, at least 25 lb. */
const byTrim = priced('sausage', 'trim', { unit: 'lb', amountMinor: 300, kinds: ['sausage'], least: 25 });

describe('a bill by trim', () => {
  it('charges each owner of a pooled batch for the trim of its own, with the minimum for a small one', async () => {
    const shop = await pricedShop([byTrim]);
    const recipeId = await addRecipe(shop, PLAIN, SAUSAGE);
    const [big, small] = [await trimOf(shop, '40'), await trimOf(shop, '20')];
    const { id, batchId } = await opened(shop, recipeId, { [big]: '40', [small]: '20' });
    await packed(shop, id, '60', 52, '52');
    // 40 lb × $3.00; 20 lb is below the minimum of 25 lb: $75.00. Of 52 lb packed, 34.67 and 17.33 lb are theirs.
    expect(await draftOf(shop, big)).toMatchObject({ lines: { sausage: 12_000 }, total: 12_000 });
    expect(await draftOf(shop, small)).toMatchObject({ lines: { sausage: 7500 }, total: 7500 });
    const { draft } = await shop.call('bills.get', { animalId: small });
    expect(draft!.lines).toMatchObject([{ label: 'sausage (min. 25 lb)', quantity: 25, unit: 'lb' }]);
    await shop.call('grinder.finish', { batchId });
    await shop.call('bills.create', { animalId: big, confirmed: true });
    const { bill } = await shop.call('bills.get', { animalId: big });
    expect(figures(bill)).toMatchObject({ lines: { sausage: 12_000 } });
  });

  it('divides the trim of one grind between its products by the meat of each, and the rest goes into what is packed as it is', async () => {
    const shop = await pricedShop([]);
    const summer = await addRecipe(shop, PLAIN, SAUSAGE);
    const sticks = await addRecipe(shop, PLAIN, STICKS);
    await save(shop, [
      priced('summer', 'trim', { unit: 'lb', amountMinor: 300, recipes: [summer] }),
      priced('sticks', 'trim', { unit: 'lb', amountMinor: 500, products: [STICKS] }),
      priced('ground', 'trim', { unit: 'lb', amountMinor: 100, products: ['Ground'] }),
    ]);
    const animalId = await trimOf(shop, '60');
    const { id, batchId } = await opened(shop, summer, { [animalId]: '60' });
    const other = await shop.call('made.open', { recipeId: sticks, batchId });
    await packed(shop, id, '30', 26, '26');
    await packed(shop, other.id, '20', 13, '13');
    await shop.call('grinder.pack', { batchId, product: 'Ground', count: 10, typed: '9.8' });
    // 30 lb × $3.00, 20 lb × $5.00, and the 10 lb that are left × $1.00.
    expect((await draftOf(shop, animalId)).lines).toEqual({ summer: 9000, sticks: 10_000, ground: 1000 });
  });

  it('tells of what was packed at the table, whose trim nobody weighed', async () => {
    const shop = await pricedShop([
      priced('jerky', 'trim', { unit: 'lb', amountMinor: 450, kinds: ['jerky'] }),
    ]);
    const animalId = await takeIn(shop);
    await cut(shop, animalId, { trim: '10' });
    await shop.call('table.weigh', {
      animalId,
      stage: 'packed',
      part: 'package',
      product: 'Jerky strips',
      count: 4,
      typed: '3',
    });
    const { draft, unpriced } = await shop.call('bills.get', { animalId });
    expect(draft?.lines ?? []).toEqual([]);
    expect(unpriced).toMatchObject([{ what: 'product', name: 'Jerky strips' }]);
  });
});

describe('the prices themselves', () => {
  it('refuse the same product by trim and by finished weight on one animal, and a minimum of nothing', async () => {
    const shop = await pricedShop([]);
    const finished = priced('finished', 'product', { unit: 'lb', amountMinor: 400, kinds: ['sausage'] });
    const book = { name: 'Two', validFrom: '2026-10-01', taxRule: 'per line' as const };
    expect(await shop.problem('prices.save', { ...book, lines: [byTrim, finished] })).toMatchObject({ code: 'price.same-thing' }); // prettier-ignore
    for (const least of [0, -5, 0.001, 10_001])
      expect(await shop.problem('prices.save', { ...book, lines: [{ ...byTrim, least }] })).toMatchObject({ code: 'price.least' }); // prettier-ignore
    expect(await shop.problem('prices.save', { ...book, lines: [priced('each', 'animal', { amountMinor: 100, least: 2 })] })).toMatchObject({ code: 'price.least' }); // prettier-ignore
    expect(await shop.problem('prices.save', { ...book, lines: [priced('none', 'trim', { unit: 'lb', amountMinor: 100 })] })).toMatchObject({ code: 'price.not-named' }); // prettier-ignore
  });

  it('count a product as priced whose recipe has a line', async () => {
    const shop = await pricedShop([]);
    const sticks = await addRecipe(shop, PLAIN, STICKS);
    await save(shop, [priced('sticks', 'trim', { unit: 'lb', amountMinor: 500, recipes: [sticks] })]);
    const { gaps, lines } = await shop.call('prices.get', {});
    expect(lines).toMatchObject([{ basis: 'trim', recipes: [sticks], least: null }]);
    const names = gaps.unpriced.map(({ name }) => name);
    expect(names).toContain(SAUSAGE);
    expect(names).not.toContain(STICKS);
  });

  it('tried on bills from before say which products these do not tell apart', async () => {
    const shop = await pricedShop([byTrim]);
    const recipeId = await addRecipe(shop, PLAIN, SAUSAGE);
    const animalId = await trimOf(shop, '40');
    const { id } = await opened(shop, recipeId, { [animalId]: '40' });
    await packed(shop, id, '40', 35, '35');
    await shop.call('bills.create', { animalId, confirmed: true });
    const lines = [{ ...byTrim, amountMinor: 400, least: null }];
    const tried = await shop.call('costing.tryPrices', { lines });
    expect(tried).toMatchObject({ thenMinor: 12_000, nowMinor: 16_000, notSplit: [] });
    // As a bill was frozen before there were prices by trim.
    const db = new Database(shop.bookPath);
    const trigger = db
      .prepare("SELECT sql FROM sqlite_schema WHERE name = 'bill_no_update'")
      .pluck()
      .get() as string;
    db.exec(
      `DROP TRIGGER bill_no_update; UPDATE bill SET amounts = json_remove(amounts, '$.made'); ${trigger}`,
    );
    db.close();
    const before = await shop.call('costing.tryPrices', { lines });
    expect(before.notSplit).toEqual([SAUSAGE]);
  });

  it('bring a product of the smokehouse its price by trim, and its part of a minimum', async () => {
    const shop = await pricedShop([byTrim]);
    const recipeId = await addRecipe(shop, PLAIN, SAUSAGE);
    const animalId = await trimOf(shop, '20');
    const { id, batchId } = await opened(shop, recipeId, { [animalId]: '20' });
    await packed(shop, id, '20', 16, '16');
    await shop.call('grinder.finish', { batchId });
    await shop.call('bills.create', { animalId, confirmed: true });
    const { made } = await shop.call('costing.get', {});
    // 25 lb × $3.00 on 16 lb that went home.
    expect(made[0]?.fee?.product).toBeCloseTo(7500 / 16, 6);
    expect(made[0]!.packedGrams / POUND).toBeCloseTo(16, 6);
  });
});

/** Summer sausage of three owners, by keyboard from the recipe to the packages; figures written out by hand. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';
import { addRecipe, openBatch, openLoad, over, weighOut } from './smoke-steps.ts';

/** 50 lb of trim together. */
const TRIM = { 'Ann Alder': '20.00', 'Bo Birch': '15.00', 'Cy Cedar': '15.00' };
/**
 * On 50 lb, of ounces on 100 lb: 28 of salt are 14 oz = 396.9 g; 12 of dextrose 170.1 g; 4 of pepper and of mustard 56.7 g;
 * 1 of garlic 14.2 g; 32 of water 453.6 g. 4 of cure are 56.7 g, which are never rounded up.
 */
const GRAMS = {
  Salt: 397,
  Dextrose: 170,
  'Black pepper': 57,
  'Mustard seed': 57,
  'Garlic powder': 14,
  Water: 454,
};
const CURE = 56;

let shop: ShopWindow;
let tickets: string[];

beforeAll(async () => {
  shop = await openShop();
  tickets = [];
  for (const [hunter, trim] of Object.entries(TRIM))
    tickets.push((await deerAtDesk(shop, hunter, { trim })).ticket);
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

describe('summer sausage of three owners', () => {
  it('has a recipe that cannot start before the packet of the cure was read', async () => {
    const { page } = shop;
    await addRecipe(shop, 'Summer sausage');
    // 4 oz of 6.25% on 100 lb: 4 × 0.0625 ÷ 1600 = 156.25 ppm, the limit of 156 as it is written.
    await page.getByText(/156(\.3|\.25)? ppm nitrite/).waitFor();
    await page.getByText('No problems found.').waitFor();
  });

  it('is of game alone in the version of this shop', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Remove row 2');
    await keys.tabTo(page.getByRole('textbox', { name: 'Share, % 1' }));
    await over(shop, '100');
    await keys.fill('What changed', 'no pork');
    await keys.press('Control+Enter');
    await page.getByText('Version 2').waitFor();
    const [recipe] = (await shop.call('recipes.list', {})).recipes;
    const { body } = await shop.call('recipes.get', { id: recipe?.id ?? 0 });
    expect(body.meat).toEqual([{ kind: 'game', name: 'Game', share: 1, fat: null }]);
  });

  it('is opened on the trim of all three, which is weighed in at the grinder', async () => {
    const trim = Object.values(TRIM).map((typed, i) => [tickets[i] ?? '', typed] as const);
    await openBatch(shop, 'Summer sausage', Object.fromEntries(trim));
    await shop.page.getByText('For 50.00 lb of meat').waitFor();
  });

  it('is weighed out to the gram, the cure last and never rounded up', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Start batch');
    await weighOut(shop, GRAMS, CURE);
    // 56 g × 0.0625 ÷ 22,679.6 g = 154.3 ppm.
    await page
      .getByText(/154(\.3)? ppm nitrite/)
      .first()
      .waitFor();
  });

  it('is stuffed and goes into a load, whose cook one reading does not prove', async () => {
    const { keys, page } = shop;
    await keys.fill('Pieces', '17');
    await keys.fill('Stuffed weight', '52.00');
    await keys.press('Enter');
    await page.getByText('Into the smokehouse').first().waitFor();
    await openLoad(shop, 'Summer sausage', 'House 1');
    await keys.fill('Internal, °F', '160');
    await keys.press('Enter');
    await page.getByText('Not proven').first().waitFor();
    expect(await page.locator('main').innerText()).not.toMatch(/\bsafe\b/i);
    await keys.pressOn('Check and save the result');
    await page.getByText('Result saved.').waitFor();
    const [load] = (await shop.call('loads.list', {})).open;
    expect(load?.verdict).toEqual({ cook: 'not-proven', cooling: 'not-proven', fresh: true });
    await keys.tabTo(page.getByRole('link', { name: /Summer sausage$/ }));
    await keys.press('Enter');
  });

  it('comes out, is packed, and is shared as the meat was', async () => {
    const { keys, page } = shop;
    await keys.fill('Weight out of the smokehouse', '46.80');
    await keys.press('Enter');
    // 1 − 46.80 ÷ 52.00 = 10%.
    await page.getByText(/46\.80 lb, 10(\.0)?% lost/).waitFor();
    await keys.fill('Packages', '20');
    await keys.fill('Weight of 20 packages', '46.00');
    await keys.press('Enter');
    await page.getByText(/46\.00 lb, 11\.5% lost/).waitFor();
    // 20 packages by 20, 15 and 15 lb of meat: 8, 6 and 6.
    const { open, recent } = await shop.call('made.list', {});
    const [line] = [...open, ...recent];
    const { owners } = await shop.call('made.get', { id: line?.id ?? 0 });
    expect(owners.map(({ packages }) => packages)).toEqual([8, 6, 6]);
  });

  it('has labels that say cooked, not ready to eat: no log proves it', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Labels');
    await page.getByRole('button', { name: /20 labels/ }).waitFor();
    const label = page.getByRole('article').first();
    await label.getByText('COOKED · KEEP REFRIGERATED').waitFor();
    const says = await label.innerText();
    expect(says).toContain('Not ready to eat: cook to 165°F (74°C) in the center.');
    // In order of weight; nobody read what else is in the packet of the cure.
    expect(says).toContain(
      'Ingredients: Mule deer, Water, Salt, Dextrose, Black pepper, Mustard seed, Cure with nitrite (ingredients not known), Garlic powder.',
    );
    expect(says).toContain('Allergens not known: Cure with nitrite.');
    expect(says).toContain('Cured with nitrite.');
    expect(says).toMatch(/NOT\s+FOR\s+SALE/);
    expect(says).not.toContain('READY TO EAT');
    expect(shop.complaints).toEqual([]);
  });
});

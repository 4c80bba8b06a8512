/** Cautions at work, one line each with details on demand, and all of them on one page. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop?.close());

it('are open at the first animal of the day, rest in a line at the next, and defer once to local rules', async () => {
  const { page } = shop;
  const first = await deerAtDesk(shop, 'Ada Mabry', {}, { species: 'wild-boar' });
  const second = await deerAtDesk(shop, 'Bo Reyes', {}, { species: 'wild-boar' });
  const list = page.getByRole('group', { name: 'Cautions' });
  const title = list.getByText('Brucellosis: gloves');
  const body = list.getByText(/Wear gloves and eye protection, cover cuts/);

  await page.evaluate((to) => (location.hash = `#/table/${to}`), first.ticket);
  await body.waitFor({ state: 'visible' });
  await page.evaluate((to) => (location.hash = `#/table/${to}`), second.ticket);
  await page.getByRole('heading', { name: second.ticket }).waitFor();
  expect(await body.isVisible()).toBe(false);
  expect(await title.first().isVisible()).toBe(true);

  await list.locator('summary').first().focus();
  await page.keyboard.press('Enter');
  await body.waitFor({ state: 'visible' });
  const sources = list.locator('.caution summary');
  for (let i = 0; i < (await sources.count()); i++) {
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
  }
  await list.getByText(/Brucellosis: Hunters, CDC/).waitFor({ state: 'visible' });
  expect(await list.locator('details:not([open])').count()).toBe(0);
  expect((await list.innerText()).match(/local rules/gi)).toHaveLength(1);
});

it('are all reachable from the key list, each with its source and date', async () => {
  const { page } = shop;
  await page.getByRole('button', { name: 'Keys' }).click();
  await page.getByRole('link', { name: 'All cautions' }).last().click();
  await page.getByText('Local rules and your license come first.').waitFor();
  const items = page.getByRole('list', { name: 'Cautions' }).getByRole('listitem');
  const texts = await items.allTextContents();
  expect(texts.length).toBeGreaterThanOrEqual(16);
  for (const text of texts) expect(text).toMatch(/Source: .+ https?:\S+ \(read on \w+ \d+, 2026\)/);
  expect(await page.getByRole('dialog').count()).toBe(0);
  expect(shop.complaints).toEqual([]);
});

/** A person who reads the cautions: at the work, folded for the day, again tomorrow, and all of them on one page. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop?.close());

it('folds what was seen to its titles for today, at this place only, and brings it back tomorrow', async () => {
  const { page } = shop;
  const { ticket } = await deerAtDesk(shop, 'Ada Mabry', {}, { species: 'wild-boar' });
  await page.evaluate((to) => (location.hash = `#/table/${to}`), ticket);
  const list = page.getByRole('group', { name: 'Mind here' });
  const body = /Cover cuts, wear gloves and eye protection/;
  await list.getByText(body).waitFor();
  await list.getByRole('button', { name: 'Seen for today' }).click();
  await list.getByText(/Seen for today: .*Wild pigs: gloves and eye protection/).waitFor();
  expect(await list.getByText(body).count()).toBe(0);

  await page.reload();
  await list.getByText(/Seen for today: .*Wild pigs/).waitFor();
  await page.evaluate(() => (location.hash = '#/intake'));
  await page.getByText(/marked “Not for sale” and stored apart/).waitFor();

  await page.evaluate((to) => (location.hash = `#/table/${to}`), ticket);
  await list.getByRole('button', { name: 'Show again' }).click();
  await list.getByText(body).waitFor();

  await list.getByRole('button', { name: 'Seen for today' }).click();
  await page.evaluate(() => {
    const kept = JSON.parse(localStorage.getItem('gambrel.cautions-seen') ?? '') as { day: string };
    localStorage.setItem('gambrel.cautions-seen', JSON.stringify({ ...kept, day: '2026-01-01' }));
  });
  await page.reload();
  await list.getByText(body).waitFor();
});

it('leads from the key sheet to all of them, each with its source and its day', async () => {
  const { page } = shop;
  await page.getByRole('button', { name: 'Keys' }).click();
  await page.getByRole('link', { name: 'All cautions' }).last().click();
  await page.getByText('Local rules and licensed practice come first.').waitFor();
  const items = page.getByRole('list', { name: 'Cautions' }).getByRole('listitem');
  const texts = await items.allTextContents();
  expect(texts.length).toBeGreaterThanOrEqual(16);
  for (const text of texts) expect(text).toMatch(/Source: .+ https?:\S+ \(read on \w+ \d+, 2026\)/);
  expect(await page.getByRole('dialog').count()).toBe(0);
  expect(shop.complaints).toEqual([]);
});

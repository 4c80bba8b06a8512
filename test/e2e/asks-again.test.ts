/** A window refetches only what a change may affect: counts calls in three windows during work at the Table. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

const WEIGHTS = 20;

let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

/** Counts the calls of a window by name from now on. */
function countCalls(page: Page): () => Record<string, number> {
  const counts: Record<string, number> = {};
  page.on('request', (request) => {
    const [, name] = /\/call\/(.+)$/.exec(request.url()) ?? [];
    if (name) counts[name] = (counts[name] ?? 0) + 1;
  });
  return () => counts;
}

/**
 * A browser has six connections to one address, and each window keeps one open for changes, so there are few windows.
 */
async function windowAt(place: string): Promise<Page> {
  return goTo((await shop.another()).page, place);
}

/** Opens a page and waits until all its calls are answered and none follows for a while. */
async function goTo(page: Page, place: string): Promise<Page> {
  const calls = countCalls(page);
  const sum = () => Object.values(calls()).reduce((total, n) => total + n, 0);
  await page.evaluate((hash) => (location.hash = hash), place);
  for (let before = -1; before !== sum();) {
    before = sum();
    await page.waitForTimeout(700);
  }
  return page;
}

it(`${WEIGHTS} weights of one animal make a window ask again for that animal, and for nothing else`, async () => {
  const animal = await deerAtDesk(shop, 'Ann Alder');
  const other = await deerAtDesk(shop, 'Bo Birch');
  // The first weight takes the animal from the hook.
  await shop.call('table.weigh', { animalId: animal.id, stage: 'cut', part: 'trim', typed: '8' });
  const windows = {
    season: await windowAt('#/season'),
    rail: await windowAt('#/rail'),
    table: await windowAt(`#/table/${animal.ticket}`),
    'table of another': await windowAt(`#/table/${other.ticket}`),
    shop: await goTo(shop.page, '#/shop'),
  };
  const counted = Object.entries(windows).map(([name, page]) => ({ name, calls: countCalls(page) }));
  for (let i = 0; i < WEIGHTS; i++) {
    await shop.call('table.weigh', { animalId: animal.id, stage: 'cut', part: 'trim', typed: `1.${i + 10}` });
    await shop.page.waitForTimeout(100);
  }
  const asked = () => Object.fromEntries(counted.map(({ name, calls }) => [name, calls()]));
  await expect.poll(() => asked()['table']?.['animals.get'], { timeout: 10_000 }).toBe(WEIGHTS);
  expect(asked()).toEqual({
    season: {},
    rail: {},
    table: { 'animals.get': WEIGHTS, 'animals.getHistory': WEIGHTS },
    'table of another': {},
    shop: {},
  });
}, 60_000);

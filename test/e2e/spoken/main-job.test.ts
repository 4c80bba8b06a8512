/** The main job in every language but American English, which test/e2e/main-job.test.ts does with its arithmetic. */
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { openShop, type ShopWindow } from '../shop-window.ts';
import { doMainJob } from './main-job.ts';
import { wordsOf } from './words-of.ts';

let shop: ShopWindow;

beforeAll(async () => {
  shop = await openShop();
  await shop.call('shop.saveSettings', { changes: { detailEvery: 1 } });
});
afterAll(() => shop?.close());

beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));

it.each(['en-CA', 'es-MX', 'fr-CA', 'qps'] as const)(
  'is done from intake to pickup in %s',
  async (language) => {
    const window = await shop.another(language);
    const ticket = await doMainJob({
      shop: { ...shop, ...window },
      words: await wordsOf(language),
      language,
    });
    expect(await shop.call('animals.get', { ticket })).toMatchObject({
      stage: 'released',
      bill: { billed: true, dueMinor: 0 },
    });
    expect(await window.page.locator('html').getAttribute('lang')).toBe(language);
    expect(shop.complaints.splice(0)).toEqual([]);
    await window.page.close();
  },
  150_000,
);

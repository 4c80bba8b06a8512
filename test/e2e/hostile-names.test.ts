/**
 * Names with markup, bidirectional text and very long words: shown literally, never executed, and no page gets wider.
 */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { printed } from './paper.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

const MARKUP = '<img src=x onerror="window.harmed=1"><script>window.harmed=1</script>';
const LONG = 'W'.repeat(180);
const SIGNS = '👩‍👩‍👧🦌 \u202Eאבג\u202C \u200Fسلام';
const NAMES = [
  MARKUP,
  LONG,
  SIGNS,
  "'); DROP TABLE hunter; --",
  '=HYPERLINK("http://x")',
  '{{ constructor }}',
];

let shop: ShopWindow;
const tickets: string[] = [];
beforeAll(async () => {
  shop = await openShop();
  await shop.call('shop.saveSettings', { changes: { shopName: `${MARKUP} ${'W'.repeat(40)}` } });
  const { id: coolerId } = await shop.call('coolers.save', { name: MARKUP.slice(0, 60), places: 9 });
  for (const name of NAMES) {
    const { id, ticket } = await deerAtDesk(
      shop,
      name,
      { trim: '30', 'whole cuts': '20' },
      { hunter: { name, address: name, licence: name.slice(0, 60) }, condition: name, killArea: name },
    );
    await shop.call('animals.hang', { ids: [id], coolerId, place: name.slice(0, 40) });
    await shop.call('animals.hold', { id, reason: name });
    tickets.push(ticket);
  }
});
afterAll(() => shop?.close());

it('are shown literally and never executed', async () => {
  const { page } = shop;
  const pages = [
    '/rail', '/table', ...tickets.map((ticket) => `/table/${ticket}`), '/grinder', '/pickup', '/books', '/books/paper',
    '/season/animals', '/shop', '/cooler/1', ...tickets.slice(0, 3).flatMap((ticket) => [`/bill/${ticket}`, `/label/tag/${ticket}`, `/label/animal/${ticket}`]),
  ]; // prettier-ignore
  const wide: string[] = [];
  for (const to of pages) {
    await page.evaluate((hash) => (location.hash = hash), `#${to}`);
    await page.locator('h1').first().waitFor();
    await page.waitForTimeout(250);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    if (over > 0) wide.push(`${to} is ${over} px too wide`);
    expect(await page.evaluate(() => 'harmed' in window), to).toBe(false);
    expect(await page.locator('img[src="x"], main script').count(), to).toBe(0);
  }
  expect(wide).toEqual([]);
  await page.evaluate((to) => (location.hash = `#/table/${to}`), tickets[0]);
  await page.getByText(MARKUP).first().waitFor();
  expect(shop.complaints).toEqual([]);
});

it('are printed literally on the tag and in the record book', async () => {
  const { page } = shop;
  await page.evaluate(() => (location.hash = '#/books/paper'));
  await page.getByText('DROP TABLE').first().waitFor();
  const words = (await printed(page)).map((sheet) => sheet.words).join(' ');
  expect(words.replaceAll(/\s/g, '')).toContain('<script>window.harmed=1</script>');
  expect((await shop.call('hunters.find', { text: 'DROP' })).map(({ name }) => name)).toEqual([NAMES[3]]);
});

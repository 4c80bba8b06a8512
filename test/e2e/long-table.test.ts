/** A table of thousands of rows: the record book of a large shop, made by repeating the desk's few entries. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { printed } from './paper.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let count = 5000;
beforeAll(async () => {
  shop = await openShop();
  await deerAtDesk(shop, 'Anna Berg');
  await shop.page.route('**/call/records.list', async (route) => {
    const response = await route.fetch();
    const answer = (await response.json()) as { ok: true; value: [Record<string, unknown>] };
    const value = Array.from({ length: count }, (_, i) => ({
      ...answer.value[0],
      id: i + 1,
      ticket: `26-${String(i + 1).padStart(4, '0')}`,
    }));
    await route.fulfill({ response, json: { ok: true, value } });
  });
});
afterAll(() => shop.close());

const table = () => shop.page.locator('main table').last();
const link = (ticket: string) => table().getByRole('link', { name: ticket, exact: true });
const drawn = () => table().locator('tbody tr[aria-rowindex]').count();

it('renders the visible rows, states the number of rows, and scrolls to the end', async () => {
  const { page, keys } = shop;
  await keys.goTo('books', 9);
  await link('26-0001').waitFor();
  expect(await drawn()).toBeLessThan(60);
  expect(await table().getAttribute('aria-rowcount')).toBe('5001');
  await page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
  await link('26-5000').waitFor();
  await page.evaluate(() => window.scrollTo(0, document.documentElement.scrollHeight));
  const last = table().locator('tbody tr').filter({ hasText: '26-5000' });
  expect(await last.getAttribute('aria-rowindex')).toBe('5001');
  expect(await drawn()).toBeLessThan(60);
});

it('keeps the focused row, and Tab continues from it', async () => {
  const { page, keys } = shop;
  await page.evaluate(() => window.scrollTo(0, 0));
  await link('26-0003').focus();
  await page.evaluate(() => window.scrollTo(0, 100_000));
  await page.waitForTimeout(300);
  expect(await drawn()).toBeLessThan(60);
  const next = async (): Promise<string> => {
    await keys.press('Tab');
    return page.evaluate(() => document.activeElement?.closest('tr')?.getAttribute('aria-rowindex') ?? '');
  };
  const rows = new Set<string>();
  // A row may hold several stops.
  for (let i = 0; i < 16 && rows.size < 4; i++) rows.add(await next());
  expect([...rows]).toEqual(['4', '5', '6', '7']);
});

it('leads Ctrl F to its search, and renders every row for the browser’s on the second press', async () => {
  const { page, keys } = shop;
  count = 1000;
  await page.reload();
  await link('26-0001').waitFor();
  expect(await link('26-0700').count()).toBe(0);
  await keys.press('ControlOrMeta+f');
  expect(await page.getByRole('searchbox').evaluate((field) => field === document.activeElement)).toBe(true);
  expect(await drawn()).toBeLessThan(60);
  await keys.press('ControlOrMeta+f');
  await link('26-0700').waitFor();
  expect(await table().locator('tbody tr').count()).toBe(1000);
});

it('prints every row, and renders few again afterwards', async () => {
  const { page } = shop;
  count = 200;
  await page.reload();
  await link('26-0001').waitFor();
  const words = (await printed(page)).map((sheet) => sheet.words).join(' ');
  for (const ticket of ['26-0001', '26-0100', '26-0200']) expect(words).toContain(ticket);
  expect(await drawn()).toBeLessThan(60);
  expect(shop.complaints).toEqual([]);
}, 60_000);

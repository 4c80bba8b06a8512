/** Cutting instructions come first on the Table and are printed on one sheet; defaults are marked as such. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import { printed } from './paper.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let deer: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
  deer = await deerAtDesk(
    shop,
    'Ann Alder',
    {},
    { sample: 'L-704', promisedOn: '2030-01-02', confirmed: true },
  );
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

describe('the cut sheet', () => {
  it('is above the fold of a small screen, and says if the hunter was not asked', async () => {
    const { page, keys } = shop;
    await scanTicket(page, deer.ticket);
    const card = page.getByText('Cut sheet: not asked yet').last();
    await card.waitFor();
    // The cautions stand open at the first animal of the day.
    await page.locator('[data-cautions] summary').first().click();
    await page.evaluate(() => scrollTo(0, 0));
    // The last line of the instructions, without scrolling.
    const line = await page
      .getByRole('listitem')
      .filter({ hasText: /^Packages/ })
      .boundingBox();
    expect((line?.y ?? 999) + (line?.height ?? 999)).toBeLessThan(690);
    expect(await page.evaluate(() => window.scrollY)).toBe(0);
    await keys.pressOn('Hunter wants our standard cuts');
    await page.getByText('Hunter wants our standard cuts.').first().waitFor();
    expect(await page.getByText('Cut sheet: not asked yet').count()).toBe(0);
    expect((await shop.call('animals.get', { id: deer.id })).ordersStatus).toBe('standard');
  });

  it('prints on one page with hunter, phone, hold, instructions and promised date', async () => {
    const { page } = shop;
    await page.getByRole('link', { name: 'Print cut sheet' }).first().click();
    await page.getByRole('heading', { name: `Cut sheet ${deer.ticket}` }).waitFor();
    await page.getByText('Ann Alder').first().waitFor();
    const sheets = await printed(page);
    expect(sheets).toHaveLength(1);
    for (const said of [
      'Ann Alder',
      'On hold',
      'L-704',
      'standard cuts',
      'Ground',
      'Jan 2, 2030',
      deer.ticket,
    ])
      expect(sheets[0]?.words).toContain(said);
    expect(shop.complaints).toEqual([]);
  });
});

/** Ground jerky of one owner, by keyboard from the recipe to the labels: its cook is first not proven, then proven. */
import type { FileChooser } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { GOOD, logFile, readingsAlong } from '../desk/smokehouse/load-of.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';
import { addRecipe, openBatch, openLoad, openTab, weighOut } from './smoke-steps.ts';

/**
 * On 20 lb, of ounces on 100 lb: 24 of salt are 4.8 oz = 136.1 g; 32 of brown sugar 181.4 g; 5 of pepper 28.3 g; 1.5 of garlic 8.5 g.
 * 4 of cure are 22.7 g, which are never rounded up.
 */
const GRAMS = { Salt: 136, 'Brown sugar': 181, 'Black pepper': 28, 'Garlic powder': 9 };
const CURE = 22;

let shop: ShopWindow;
let ticket: string;
let chooser: Promise<FileChooser>;

beforeAll(async () => {
  shop = await openShop();
  // Listened for from the start: Chromium opens a real list of files, and then no other, if it hears of a listener after the key.
  chooser = new Promise((resolve) => shop.page.once('filechooser', resolve));
  ({ ticket } = await deerAtDesk(shop, 'Dee Dogwood', { trim: '20.00' }));
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

/** Types a date and a time of day into the parts of its field, as month, day, year, hour, minute and half of the day. */
async function fillMoment(label: string, day: string, time: string): Promise<void> {
  const { keys, page } = shop;
  await keys.tabTo(page.getByLabel(label, { exact: true }));
  await keys.type(day);
  await keys.press('Tab');
  await keys.type(time);
}

/** Opens the list of files by keyboard; once more if the page was drawn anew between the focus and the key. */
async function chooseFile(tries = 3): Promise<FileChooser> {
  const { keys, page } = shop;
  await keys.tabTo(page.getByLabel('Logger file'));
  await keys.press('Enter');
  const seen = await Promise.race([chooser, page.waitForTimeout(5_000)]);
  if (seen) return seen;
  if (tries === 1) throw new Error('Enter on "Logger file" opened no list of files');
  return chooseFile(tries - 1);
}

describe('ground jerky of one owner', () => {
  it('has a recipe that starts from one of the program, once the packet of the cure was read', async () => {
    await addRecipe(shop, 'Ground jerky');
    await shop.page.getByText('No problems found.').waitFor();
  });

  it('has a sheet for the meat that was weighed in', async () => {
    const { keys, page } = shop;
    await openBatch(shop, 'Ground jerky', { [ticket]: '20.00' });
    await page.getByText('For 20.00 lb of meat').waitFor();
    await keys.pressOn('Start batch');
    await page.getByText('Salt: 136 g', { exact: true }).waitFor();
  });

  it('is weighed out, stuffed, and goes into the smokehouse', async () => {
    const { keys, page } = shop;
    await weighOut(shop, GRAMS, CURE);
    await keys.fill('Stuffed weight', '20.70');
    await keys.press('Enter');
    await page.getByText('Into the smokehouse').first().waitFor();
    await openLoad(shop, 'Ground jerky', 'Truck 2');
  });

  it('stands among what is in the smokehouse today, with what it needs next', async () => {
    const { keys, page } = shop;
    await openTab(shop, 'Today');
    const load = page.locator('section').filter({ has: page.getByRole('heading', { name: /^Truck 2: / }) });
    await load.getByText('Ground jerky, 20.70 lb').waitFor();
    await load.getByText('Take the first reading').waitFor();
    await keys.tabTo(load.getByRole('link').first());
    await keys.press('Enter');
    await page.getByRole('heading', { name: 'How it was cooked' }).waitFor();
  });

  it('is not proven by one reading at 160°F: no log shows the way there, and no moist heat was written down', async () => {
    const { keys, page } = shop;
    await keys.fill('Internal, °F', '160');
    await keys.press('Enter');
    await page.getByText('Not proven').first().waitFor();
    await keys.pressOn('Check and save the result');
    await page.getByText('Result saved.').waitFor();
    const [load] = (await shop.call('loads.list', {})).open;
    expect(load?.verdict).toEqual({ cook: 'not-proven', cooling: 'not-proven', fresh: true });
    await openTab(shop, 'Today');
    const waits = page
      .locator('section')
      .filter({ has: page.getByRole('heading', { name: 'Waiting for a decision' }) });
    await waits.getByText('Cook: Not proven. Cooling: Not proven.').waitFor();
    await keys.tabTo(waits.getByRole('link'));
    await keys.press('Enter');
  });

  it('is proven by the file of the logger, the steam and the times of the oven, without the typed reading', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Void log 1');
    await page.getByRole('dialog').waitFor();
    await keys.fill('Reason', 'the logger has it');
    await keys.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await keys.choose('During', 'Both');
    const files = await chooseFile();
    const buffer = Buffer.from(logFile(readingsAlong(GOOD)));
    await files.setFiles({ name: 'truck-2.csv', mimeType: 'text/csv', buffer });
    await page.getByText('truck-2.csv: 561 readings, 38 to 160°F').waitFor();
    await keys.pressOn('Import 561 readings');
    // The oven was on for 3 h 50 min; steam is due for half of it, 1 h 55 min.
    await keys.choose('Moist heat', 'Steam, minutes');
    await keys.fill('Minutes', '115');
    await fillMoment('Oven on', '10092026', '0600AM');
    await fillMoment('Oven off', '10092026', '0950AM');
    await keys.pressOn('Save cook');
    await page.getByText('Cook saved.').waitFor();
    await page.getByText('Meets the figures entered').nth(1).waitFor();
    await keys.pressOn('Check and save the result');
    await page.getByText('Result saved.').waitFor();
    const [load] = (await shop.call('loads.list', {})).open;
    expect(load?.verdict).toEqual({ cook: 'meets-figures', cooling: 'meets-figures', fresh: true });
    expect(await page.locator('main').innerText()).not.toMatch(/\bsafe\b/i);
  });

  it('is dried, packed and labeled ready to eat, all of it for its one owner', async () => {
    const { keys, page } = shop;
    await keys.tabTo(page.getByRole('link', { name: /Ground jerky$/ }));
    await keys.press('Enter');
    await keys.fill('Weight out of the smokehouse', '9.20');
    await keys.press('Enter');
    // 1 − 9.20 ÷ 20.70 = 55.6%.
    await page.getByText(/9\.20 lb, 55\.6% lost/).waitFor();
    await keys.fill('Packages', '18');
    await keys.fill('Weight of 18 packages', '9.00');
    await keys.press('Enter');
    // 1 − 9.00 ÷ 20.70 = 56.5%.
    await page.getByText(/9\.00 lb, 56\.5% lost/).waitFor();
    await page.getByText('Its logs meet the figures entered. The label may say ready to eat.').waitFor();
    await keys.pressOn('Labels');
    await page.getByRole('button', { name: /18 labels/ }).waitFor();
    const says = await page.getByRole('article').first().innerText();
    expect(says).toContain('READY TO EAT · KEEP REFRIGERATED');
    expect(says).toContain(ticket);
    // 181, 136, 28, 22 and 9 g.
    expect(says).toContain(
      'Ingredients: Mule deer, Brown sugar, Salt, Black pepper, Cure with nitrite (ingredients not known), Garlic powder.',
    );
    expect(says).toMatch(/NOT\s+FOR\s+SALE/);
    expect(says).not.toContain('cook to');
    expect(shop.complaints).toEqual([]);
  });
});

/** Adds a species, a product and a template in the Books, and uses them. */
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { freshDesk } from '../desk/fresh-desk.ts';
import { openBrowser } from './browser.ts';
import { openLook } from './look-at.ts';
import { serve, type Served } from './served.ts';

let complaints: string[];
let served: Served;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  const shop = await freshDesk('lb', '2026-11-24T18:00:00Z');
  shop.desk.close();
  served = await serve('--book', shop.bookPath);
  browser = await openBrowser();
  const look = await openLook(browser, await served.newAddress(), { reducedMotion: null });
  ({ page, complaints } = look);
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
});

async function open(tab: string): Promise<void> {
  await page.evaluate((name) => (location.hash = `#/books?tab=${name}`), tab);
  await page.locator('[role=tabpanel] table').waitFor();
}
const button = (name: string) => page.getByRole('button', { name, exact: true });
const row = (name: string) => page.getByRole('row').filter({ hasText: name });

describe('a species of the shop’s own', () => {
  it('is derived from a relative with a name and a weight, and is immediately offered at Intake', async () => {
    await open('species');
    await button('New species').click();
    await page.getByLabel('Similar to').selectOption({ label: 'Elk' });
    await button('Save').click();
    await page.getByText('Give it a name.').waitFor();
    await page.getByLabel('Name', { exact: true }).fill('Red deer');
    await page.getByLabel('Male', { exact: true }).fill('stag');
    await page.getByLabel('Typical hanging weight').fill('180');
    await button('Save').click();
    await page.getByText('Red deer is saved.').waitFor();
    expect(await row('Red deer').innerText()).toMatch(
      /your own[\s\S]*stag, cow, calf[\s\S]*typically 180 lb/,
    );
    await page.evaluate(() => (location.hash = '#/intake'));
    await page.getByRole('radio', { name: /^Red deer/ }).check({ force: true });
    await page.getByRole('radio', { name: /^Stag/ }).waitFor({ state: 'attached' });
    await page.getByRole('radio', { name: 'Loin steaks, jerky and burger' }).waitFor({ state: 'attached' });
  });

  it('is not offered once archived, and restored by undo', async () => {
    await open('species');
    await button('Archive Red deer').click();
    await page.getByText('Archived: 1').waitFor();
    await page.evaluate(() => (location.hash = '#/intake'));
    await page.getByRole('radio', { name: /^Elk/ }).waitFor({ state: 'attached' });
    expect(await page.getByRole('radio', { name: /^Red deer/ }).count()).toBe(0);
    await page.keyboard.press('Control+z');
    await page.getByRole('radio', { name: /^Red deer/ }).waitFor({ state: 'attached' });
  });
});

describe('a product and a template', () => {
  it('keep their values as typed, weights included', async () => {
    await open('products');
    await button('New product').click();
    await page.getByLabel('Name', { exact: true }).fill('Jalapeño links');
    await page.getByText('Sausage', { exact: true }).last().click();
    await page.getByLabel('Package size').fill('1 lb 8 oz');
    await page.getByLabel('Other ingredients').fill('salt, jalapeño');
    await button('Save').click();
    await page.getByText('Jalapeño links is saved.').waitFor();
    expect(await row('Jalapeño links').innerText()).toMatch(
      /Sausage[\s\S]*packages of 1.50 lb[\s\S]*salt, jalapeño/,
    );
  });

  it('are written piece by piece, and listed first among their kind', async () => {
    await open('ways');
    await button('New template').click();
    await page.getByLabel('Name', { exact: true }).fill('The usual');
    await page.getByRole('radio', { name: 'All to grind' }).check({ force: true });
    await button('Save').click();
    await page.getByText('The usual is saved.').waitFor();
    const first = page.locator('[role=tabpanel] tbody tr').first().filter({ hasText: 'The usual' });
    await first.waitFor();
    expect(await first.innerText()).toMatch(/Deer, elk, moose[\s\S]*your own[\s\S]*\b0%/);
  });
});

it.each(['light', 'dark'] as const)('are accessible in the %s theme', async (theme) => {
  await page.emulateMedia({ colorScheme: theme });
  await page.evaluate(axe.source);
  for (const [tab, name] of [['species', 'New species'], ['products', 'New product'], ['ways', 'New template']] as const) {
    await open(tab);
    for (const dialog of [false, true]) {
      if (dialog) await button(name).click();
      const { violations } = await page.evaluate(() =>
        (window as unknown as { axe: typeof axe }).axe.run(document, { resultTypes: ['violations'] }),
      );
      expect(violations.map(({ id, nodes }) => `${tab} ${id}: ${nodes[0]?.html}`)).toEqual([]);
    }
    await page.keyboard.press('Escape');
    expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBe(0);
  }
}); // prettier-ignore

it('raised no console errors', () => expect(complaints).toEqual([]));

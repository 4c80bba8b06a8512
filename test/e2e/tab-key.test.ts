/** Without a mouse: the focus is visible in every theme and never lost. That every page is usable by keyboard is tested in `screens.ts`. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { openLook, type Look } from './look-at.ts';
import { PLACES, subjectsOf, type Subjects } from './places.ts';
import { serve, type Served } from './served.ts';
import { tabWay } from './tab-way.ts';

let demo: Served;
let browser: Browser;
let look: Look;
let page: Page;
let subjects: Subjects;

beforeAll(async () => {
  [demo, browser] = await Promise.all([serve('--demo'), openBrowser()]);
  subjects = await subjectsOf(await demo.newAddress());
  look = await openLook(browser, await demo.newAddress());
  ({ page } = look);
});
afterAll(async () => {
  await browser?.close();
  await demo?.end('SIGINT');
});
const go = (name: string) =>
  look.goTo(
    PLACES.find((place) => place.name === name)!,
    subjects,
  );
const lost = () =>
  page.evaluate(() => document.activeElement === document.body || document.activeElement === null);

it.each([{ colorScheme: 'dark' as const }, { forcedColors: 'active' as const }])(
  'the focus is visible with %o',
  async (media) => {
    await page.emulateMedia(media);
    await go('intake');
    expect((await tabWay(page)).unseen).toEqual([]);
    await go('rail');
    expect((await tabWay(page)).unseen).toEqual([]);
    await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none' });
  },
);

it('Tab reaches every element of header and page', async () => {
  await go('tables');
  await page.getByRole('navigation', { name: 'Places' }).getByRole('link').first().focus();
  const met: string[] = [];
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    const name = await page.evaluate(() => document.activeElement?.textContent?.trim() ?? '');
    if (met.length > 0 && name === met[0]) break;
    met.push(name);
  }
  for (const place of ['Intake', 'Shop', 'Take to the table']) expect(met).toContain(place);
  expect(met.indexOf('Shop')).toBeLessThan(met.indexOf('Take to the table'));
});

describe('the focus is kept', () => {
  it('when a dialog closes', async () => {
    await go('rail');
    const opener = page.getByRole('button', { name: 'Keys' });
    await opener.press('Enter');
    await page.getByRole('dialog').waitFor();
    await page.keyboard.press('Escape');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    await expect.poll(() => opener.evaluate((button) => button === document.activeElement)).toBe(true);
  });

  it('when its row is archived, and when that is undone', async () => {
    await go('products');
    const first = page.getByRole('button', { name: /^Archive / }).first();
    const name = (await first.getAttribute('aria-label')) ?? '';
    const button = page.getByRole('button', { name, exact: true });
    await button.press('Enter');
    await button.waitFor({ state: 'detached' });
    await expect.poll(lost).toBe(false);
    await page.getByRole('button', { name: /^Undo/ }).press('Enter');
    await button.waitFor();
    await expect.poll(lost).toBe(false);
  });

  it('when a press navigates to another page', async () => {
    await go('tables');
    await page.getByRole('link', { name: /^26-/ }).last().press('Enter');
    await page.getByText('Cut sheet').first().waitFor();
    await expect.poll(lost).toBe(false);
  });
});

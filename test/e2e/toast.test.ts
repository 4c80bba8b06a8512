/** A message about what was just done lies on the bar of the window, and never on who is working. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { sharedDemo, type Served } from './served.ts';

let demo: Served;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  demo = await sharedDemo();
  browser = await openBrowser();
  page = await browser.newPage();
  await page.goto(await demo.newAddress());
  await page.locator('main h1').first().waitFor();
  await page.evaluate(() => (location.hash = '/shop'));
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await demo?.end('SIGINT');
});

it.each([810, 1024, 1366, 1920])('leaves the initials free in a window %i wide', async (width) => {
  await page.setViewportSize({ width, height: 800 });
  // Nothing was changed, which it says.
  await page.getByRole('button', { name: 'Save: The shop' }).click({ force: true });
  const toast = page.locator('.toast');
  await toast.getByText('Nothing was changed.').waitFor();
  const [said, who] = await Promise.all([
    toast.boundingBox(),
    page.getByRole('group', { name: 'Who is working?' }).boundingBox(),
  ]);
  expect((said?.x ?? 0) + (said?.width ?? 0)).toBeLessThanOrEqual(who?.x ?? 0);
  expect(said?.x ?? -1).toBeGreaterThanOrEqual(0);
  expect(said?.height ?? 0).toBeGreaterThanOrEqual(44);
});

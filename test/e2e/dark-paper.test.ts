/** A printed page of the dark theme is light, charts included, and no chart is wider than the sheet. */
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { openLook } from './look-at.ts';
import { sharedDemo, type Served } from './served.ts';

let served: Served;
let browser: Browser;
let page: Page;
beforeAll(async () => {
  served = await sharedDemo();
  browser = await openBrowser();
  ({ page } = await openLook(browser, await served.newAddress(), {
    colorScheme: 'dark',
    reducedMotion: null,
  }));
  await page.evaluate(() => (location.hash = '#/season/fat'));
});
afterAll(async () => {
  await browser.close();
  await served.end('SIGINT');
});

/** Width of the first plot, and how many of its pixels have the ink of the dark and of the light theme. */
const chart = () =>
  page.evaluate(() => {
    const canvas = document.querySelector('canvas');
    const dots = canvas?.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data;
    if (!canvas || !dots) return null;
    const count = (...ink: number[]): number => {
      let n = 0;
      for (let at = 0; at < dots.length; at += 4) if (ink.every((part, i) => dots[at + i] === part)) n++;
      return n;
    };
    return { width: canvas.clientWidth, pale: count(0xe8, 0xed, 0xeb), dark: count(0x1b, 0x25, 0x27) };
  });
const told = (event: string) => page.evaluate((name) => void window.dispatchEvent(new Event(name)), event);
const theme = () => page.evaluate(() => document.documentElement.dataset.theme);

it('shows a sheet light in the dark window, its drawing included', async () => {
  await page.evaluate(() => (location.hash = '#/rail'));
  const [ticket] = /26-\d+/.exec(await page.locator('main table a').first().innerText()) ?? [];
  await page.evaluate((hash) => (location.hash = hash), `#/cut-sheet/${ticket}`);
  const piece = page.locator('article .surface').first();
  await piece.waitFor();
  // On a canvas, because the color is mixed of two tokens.
  const [red = 0, green = 0, blue = 0] = await piece.evaluate((path) => {
    const pen = document.createElement('canvas').getContext('2d')!;
    pen.fillStyle = getComputedStyle(path).fill;
    pen.fillRect(0, 0, 1, 1);
    return [...pen.getImageData(0, 0, 1, 1).data];
  });
  expect(await theme()).toBe('dark');
  expect(Math.min(red, green, blue)).toBeGreaterThan(200);
  await page.evaluate(() => (location.hash = '#/season/fat'));
});

it('prints light with charts as wide as the sheet, and returns to dark', async () => {
  await expect.poll(async () => (await chart())?.pale ?? 0, { timeout: 15_000 }).toBeGreaterThan(100);
  const before = await chart();
  expect(await theme()).toBe('dark');
  expect(before?.width).toBeGreaterThan(1000);

  await told('beforeprint');
  const paper = await chart();
  expect(await theme()).toBe('light');
  expect(paper?.width).toBe(640);
  expect(paper?.pale).toBe(0);
  expect(paper?.dark).toBeGreaterThan(500);

  await told('afterprint');
  expect(await theme()).toBe('dark');
  await expect.poll(async () => (await chart())?.width).toBe(before?.width);
});

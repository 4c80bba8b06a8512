/**
 * Takes the pictures of the demo season: those of the README into resources/pictures, or with `--all FOLDER`
 * every place and its sheets in both themes and all sizes, to be looked at. Needs a built program (`npm run build`).
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { openBrowser } from './e2e/browser.ts';
import { openLook, type Look } from './e2e/look-at.ts';
import { PLACES, subjectsOf } from './e2e/places.ts';
import { serve } from './e2e/served.ts';

const README = join(import.meta.dirname, '../resources/pictures');
/** A tablet in portrait, the smallest supported screen, an old laptop, a large monitor. */
const SIZES = [
  { width: 810, height: 1080 },
  { width: 1024, height: 768 },
  { width: 1366, height: 768 },
  { width: 1920, height: 1080 },
] as const;
/** Until charts and motion have come to rest, ms. */
const REST = 700;
/** Taller pages are cut off here, in pixels: the rest is rows that are all alike. */
const TALLEST = 3000;

/** What the README shows, by the name of its file. */
const SHOWN: readonly { file: string; place: string; chart?: true }[] = [
  { file: 'rail', place: 'rail' },
  { file: 'table', place: 'table of a doubted animal' },
  { file: 'grinder', place: 'grinder with a plan' },
  { file: 'quote', place: 'quote with an answer' },
  { file: 'season', place: 'season', chart: true },
  { file: 'pounds', place: 'where every pound went', chart: true },
  { file: 'compare', place: 'compare', chart: true },
];

/** The first chart whole, instead of the frame above it. */
async function toChart(page: Page): Promise<void> {
  await page
    .locator('main section', { has: page.locator('svg, canvas') })
    .first()
    .evaluate((card) => card.scrollIntoView());
}

/** They stand open at the first visit of a day; a picture shows the place as it is from then on. */
async function foldCautions(page: Page): Promise<void> {
  for (const open of await page.locator('[data-cautions] details[open] > summary').all()) await open.click();
  await page.evaluate(() => scrollTo(0, 0));
}

async function takeReadme({ page, goTo }: Look): Promise<void> {
  for (const { file, place, chart } of SHOWN) {
    const found = PLACES.find(({ name }) => name === place);
    if (!found) throw new Error(`There is no place called ${place}.`);
    await goTo(found, subjects);
    await foldCautions(page);
    if (chart) await toChart(page);
    await page.waitForTimeout(REST);
    await page.screenshot({ path: join(README, `${file}.png`) });
  }
}

async function takeAll({ page, complaints, goTo }: Look, folder: string, marks: string): Promise<void> {
  for (const place of PLACES) {
    await goTo(place, subjects);
    await page.waitForTimeout(REST);
    await takeWhole(page, join(folder, `${place.name.replace(/\W+/g, '-')}-${marks}.png`), !place.sheet);
    for (const complaint of complaints.splice(0)) console.error(`${place.name}: ${complaint}`);
  }
}

/** The page down to its end, or as it stands in the window where something lies over it. */
async function takeWhole(page: Page, path: string, whole: boolean): Promise<void> {
  const size = page.viewportSize() ?? SIZES[0];
  const height = whole ? await page.evaluate(() => document.documentElement.scrollHeight) : size.height;
  await page.screenshot({
    path,
    fullPage: whole,
    clip: { x: 0, y: 0, width: size.width, height: Math.min(height, TALLEST) },
  });
}

const all = process.argv.indexOf('--all');
const own = mkdtempSync(join(tmpdir(), 'gambrel-pictures-'));
const [demo, fresh, browser] = await Promise.all([
  serve('--demo'),
  serve('--book', join(own, 'fresh.gambrel')),
  openBrowser(),
]);
const subjects = await subjectsOf(await demo.newAddress());
try {
  if (all < 0) {
    await takeReadme(await openLook(browser, await demo.newAddress(), { colorScheme: 'light' }));
  } else {
    const folder = process.argv[all + 1] ?? '.';
    mkdirSync(folder, { recursive: true });
    for (const viewport of SIZES)
      for (const colorScheme of ['light', 'dark'] as const) {
        const marks = `${colorScheme}-${viewport.width}`;
        const look = await openLook(browser, await demo.newAddress(), { viewport, colorScheme });
        await takeAll(look, folder, marks);
        const greeting = await openLook(browser, await fresh.newAddress(), { viewport, colorScheme });
        await takeWhole(greeting.page, join(folder, `greeting-${marks}.png`), true);
        await Promise.all([look.page.context().close(), greeting.page.context().close()]);
      }
  }
} finally {
  await browser.close();
  await Promise.all([demo.end('SIGINT'), fresh.end('SIGINT')]);
  rmSync(own, { recursive: true, force: true });
}

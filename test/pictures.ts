/**
 * Takes the pictures of the demo season: those of the README into resources/pictures, or with `--all FOLDER`
 * every place in both themes and both sizes, to be looked at. Needs a built program (`npm run build`).
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { openBrowser } from './e2e/browser.ts';
import { serve } from './e2e/served.ts';

const README = join(import.meta.dirname, '../resources/pictures');
const SMALL = { width: 1366, height: 768 };
const LARGE = { width: 1920, height: 1080 };

interface Shot {
  name: string;
  place: string;
  /** Longer than a screen: with `--all` the whole of it is taken. */
  long?: boolean;
  /** What to do once there, to show it at work. */
  act?: (page: Page) => Promise<void>;
}

const shots: Shot[] = [
  { name: 'rail', place: '/rail' },
  { name: 'intake', place: '/intake' },
  // An animal under the knife, with a weight that does not fit.
  { name: 'table', place: '/table/26-0205' },
  { name: 'grinder', place: '/grinder', act: planFirst },
  {
    name: 'batch',
    place: '/grinder',
    act: (page) =>
      page
        .getByRole('link', { name: /^G\d\d-\d+/ })
        .first()
        .click(),
  },
  { name: 'quote', place: '/quote', act: askQuote },
  { name: 'pickup', place: '/pickup' },
  { name: 'season', place: '/season', long: true, act: toChart },
  { name: 'pounds', place: '/season/pounds', long: true, act: toChart },
  { name: 'flow', place: '/season/flow', long: true },
  { name: 'money', place: '/season/money', long: true },
  { name: 'fat', place: '/season/fat', long: true },
  { name: 'check', place: '/season/check', long: true },
  { name: 'compare', place: '/season/compare', long: true },
  { name: 'animals', place: '/season/animals' },
  { name: 'costs', place: '/season/costs' },
  { name: 'books', place: '/books' },
  { name: 'shop', place: '/shop' },
];

/** The first chart whole, instead of the frame above it. */
async function toChart(page: Page): Promise<void> {
  await page
    .locator('main section', { has: page.locator('svg, canvas') })
    .first()
    .evaluate((card) => card.scrollIntoView());
}

async function planFirst(page: Page): Promise<void> {
  const first = page.getByRole('checkbox', { name: /^Grind / }).first();
  await first.check();
  await page.getByRole('radio', { name: 'Pork back fat' }).check({ force: true });
  await page.getByLabel('Target fat').fill('12.5');
  await page.waitForTimeout(800);
}

async function askQuote(page: Page): Promise<void> {
  await page.getByLabel('Species').selectOption('Elk');
  await page.getByLabel('Weight', { exact: true }).fill('340');
  await page.getByRole('heading', { name: 'Take-home meat' }).waitFor();
}

async function take(
  folder: string,
  size: typeof SMALL,
  theme: 'light' | 'dark',
  wanted: readonly string[],
): Promise<void> {
  const context = await browser.newContext({
    viewport: size,
    colorScheme: theme,
    locale: 'en-US',
    timezoneId: 'America/Denver',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && console.error(message.text()));
  await page.goto(served.address);
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  for (const { name, place, long = false, act } of shots.filter((shot) => wanted.includes(shot.name))) {
    await page.evaluate((hash) => (location.hash = hash), `#${place}`);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    await page.waitForTimeout(600);
    await act?.(page);
    await page.waitForTimeout(900);
    const marks = folder === README ? '' : `-${theme}-${size.width}`;
    await page.screenshot({
      path: join(folder, `${name}${marks}.png`),
      fullPage: long && folder !== README,
    });
  }
  await context.close();
}

const all = process.argv.indexOf('--all');
const folder = all > 0 ? (process.argv[all + 1] ?? '.') : README;
mkdirSync(folder, { recursive: true });
const served = await serve('--demo');
const browser = await openBrowser();
if (all > 0) {
  for (const size of [SMALL, LARGE])
    for (const theme of ['light', 'dark'] as const)
      await take(
        folder,
        size,
        theme,
        shots.map(({ name }) => name),
      );
} else {
  await take(folder, SMALL, 'light', ['rail', 'table', 'grinder', 'quote', 'season', 'pounds', 'compare']);
}
await browser.close();
await served.end('SIGINT');

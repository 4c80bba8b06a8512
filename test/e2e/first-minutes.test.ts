/** The first five minutes of a new user, by keyboard: greeting, tour, empty book, a term, the wall card. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { text as tourText } from '../../src/words/compiled/window/tour.ts';
import { leaveDemo } from './frame.ts';
import { openBrowser } from './browser.ts';
import { keysOf, type Keys } from './keys.ts';
import { printed, PT_PER_MM } from './paper.ts';
import { serve, type Served } from './served.ts';

const folder = mkdtempSync(join(tmpdir(), 'gambrel-first-'));
const complaints: string[] = [];
let served: Served;
let browser: Browser;
let page: Page;
let keys: Keys;

beforeAll(async () => {
  [served, browser] = await Promise.all([serve('--book', join(folder, 'shop.gambrel')), openBrowser()]);
  const context = await browser.newContext({
    viewport: { width: 1366, height: 768 },
    locale: 'en-US',
    timezoneId: 'America/Denver',
  });
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(await served.newAddress());
  keys = keysOf(page);
});
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  rmSync(folder, { recursive: true, force: true });
});

const focused = (): Promise<string> =>
  page.evaluate(() =>
    (document.activeElement?.ariaLabel ?? document.activeElement?.textContent ?? '').trim(),
  );
const go = async (place: string): Promise<void> => {
  await page.evaluate((hash) => (location.hash = hash), `#${place}`);
  await page.waitForURL((url) => url.hash === `#${place}`);
};

const STOPS = Object.keys(tourText.stops).length;
/** The pages of the tour's stops. */
const PLACES = [/^#\/rail$/, /^#\/table\/26-\d+$/, /^#\/grinder\?animal=/, /^#\/quote\?/, /^#\/season$/];

/** Waits for the tour's stop, counted from 1, at its page, with its element highlighted and the focus on Next. */
async function atStop(number: number): Promise<void> {
  await page.waitForURL((url) => PLACES[number - 1]?.test(url.hash) ?? false);
  const title = Object.values(tourText.stops)[number - 1]?.title ?? 'no such stop';
  await page
    .getByRole('complementary', { name: tourText.name })
    .getByRole('heading', { name: title })
    .waitFor();
  await page.locator('[data-pointed]').waitFor();
  await expect.poll(focused).toBe(number === STOPS ? tourText.done : tourText.next);
}

interface Box {
  x: number;
  y: number;
  width: number;
  height: number;
}

/** The common area of two boxes, in square px; NaN if one of them is not shown. */
function overlap(a: Box | null, b: Box | null): number {
  if (!a || !b) return NaN;
  const common = (from: number, size: number, from2: number, size2: number): number =>
    Math.max(0, Math.min(from + size, from2 + size2) - Math.max(from, from2));
  return common(a.x, a.width, b.x, b.width) * common(a.y, a.height, b.y, b.height);
}

describe('the first five minutes', () => {
  // The demo season is generated when it is first opened, which takes seconds on a busy machine.
  it('begin with the choice between a new book and the demo', { timeout: 90_000 }, async () => {
    await page.getByRole('button', { name: 'Start a new book' }).waitFor();
    await keys.pressOn('Open the demo');
    await page.getByRole('complementary', { name: tourText.name }).waitFor({ timeout: 60_000 });
    await atStop(1);
  });

  it('include a tour of five stops, each on its page, by Enter alone', async () => {
    for (let stop = 1; stop < PLACES.length; stop++) {
      await atStop(stop);
      await keys.press('Enter');
    }
    await atStop(PLACES.length);
    expect(complaints).toEqual([]);
  });

  it('show real data: a doubtful weight, the fat to add, a sentence for the phone', async () => {
    await keys.pressOn(tourText.back);
    await atStop(4);
    expect(await page.locator('[data-pointed] blockquote').innerText()).toMatch(/lb of meat.*\$/);
    await keys.pressOn(tourText.back);
    await atStop(3);
    await expect
      .poll(() => page.locator('[data-pointed]').innerText())
      .toMatch(/Trim of 26-\d+[\s\S]*\d\s+lb/);
    await keys.pressOn(tourText.back);
    await atStop(2);
    await expect.poll(() => page.locator('[data-pointed]').innerText()).toContain('This does not add up.');
  });

  it('leave the page its whole width, and what the tour points at undimmed and uncovered', async () => {
    const tour = page.getByRole('complementary', { name: tourText.name });
    const widths = await page.evaluate(() => [
      document.querySelector('main')?.clientWidth,
      document.documentElement.clientWidth,
    ]);
    expect(widths[0]).toBe(widths[1]);
    for (let stop = 2; stop <= PLACES.length; stop++) {
      await atStop(stop);
      // The last one points at a whole chart, of which the finding stays readable.
      const sight = page.locator(stop < PLACES.length ? '[data-pointed]' : '[data-pointed] .finding');
      await expect.poll(async () => overlap(await tour.boundingBox(), await sight.boundingBox())).toBe(0);
      const [lit, pointed] = [
        await page.locator('.spot').boundingBox(),
        await page.locator('[data-pointed]').boundingBox(),
      ];
      for (const side of ['x', 'y', 'width', 'height'] as const)
        expect(Math.abs((lit?.[side] ?? 0) - (pointed?.[side] ?? -99))).toBeLessThanOrEqual(16);
      if (stop < PLACES.length) await keys.press('Enter');
    }
    for (let stop = PLACES.length; stop > 2; stop--) {
      await keys.pressOn(tourText.back);
      await atStop(stop - 1);
    }
  });

  it('allow leaving the tour at any time and resuming it from the key list', async () => {
    await keys.press('Escape');
    await page.getByRole('complementary', { name: tourText.name }).waitFor({ state: 'detached' });
    expect(await page.locator('[data-pointed]').count()).toBe(0);
    await expect.poll(focused).toBe('Keys and help');
    await keys.press('Enter');
    await page.getByRole('dialog', { name: 'Keys and help' }).waitFor();
    await keys.pressOn(tourText.goOn({ at: 2, of: STOPS }));
    await atStop(2);
    await keys.press('Escape');
    await leaveDemo(keys);
  });

  it('need three answers for a new book', async () => {
    await keys.pressOn('Start a new book');
    await expect
      .poll(() => page.getByLabel('Name of the shop').evaluate((one) => one === document.activeElement))
      .toBe(true);
    await keys.type('Cold Creek Locker');
    await keys.choose('Your scale shows', 'Kilograms');
    await keys.choose('Currency', 'CAD · Canadian Dollar');
    await keys.pressOn('Open the book');
    await page.getByText('The rail is empty').waitFor();
    for (const first of ['Enter your own prices', 'Add who works here', 'Add your coolers'])
      await page.getByRole('link', { name: first }).waitFor();
  });

  it.each([
    ['/rail', 'The rail is empty', 'Check in an animal'],
    ['/table', 'Nothing is hanging', 'Check in an animal'],
    ['/grinder', 'No trim is waiting.', 'Open the Table'],
    ['/quote', 'Type a weight.', 'Type the weight'],
    ['/pickup', 'Nothing is waiting for pickup.', 'Open the Rail'],
    ['/season', /^Nothing was weighed/, 'Check in an animal'],
    ['/season/pounds', /^No animals are finished here yet/, 'Open the Table'],
    ['/season/flow', /^No animals were received in/, 'Check in an animal'],
    ['/season/money', /^No animals of \d+ are billed yet/, 'Open Pickup'],
    ['/season/fat', /^No batch of the/, 'Open the Grinder'],
    ['/season/check', /^No finished animals to check/, 'Open Quote'],
    ['/season/compare', 'There is nothing to compare yet.', 'Check in an animal'],
    ['/season/animals', /^No animals in the \d+ season/, 'Check in an animal'],
    ['/season/costs', /billed/, 'Open Pickup'],
    ['/season/report', /so there is no report/, 'Check in an animal'],
    ['/books?tab=records', /^No animals are in this season’s record book/, 'Check in an animal'],
    ['/books?tab=prices', /^These are example prices/, 'Change prices'],
    ['/books?tab=fat', 'No fat on hand.', 'Receive fat'],
    ['/books?tab=hunters', 'No hunters yet.', 'New hunter'],
    ['/shop', 'No coolers yet.', 'Add a cooler'],
  ])('%s has an empty state with a button for the first step', async (place, says, starts) => {
    await go(place);
    await page.locator('main').getByText(says).first().waitFor();
    await page.locator('main').getByRole('button', { name: starts, exact: true }).first().waitFor();
  });

  it('explain a term in place, by keyboard', async () => {
    await go('/season/pounds');
    await keys.press('?');
    const help = page.getByRole('dialog', { name: 'Keys and help' });
    await keys.tabTo(help.getByRole('button', { name: 'Shrink' }));
    await keys.press('Enter');
    const note = page.getByRole('dialog', { name: 'Shrink' });
    await note.getByText(/water that evaporates/).waitFor();
    expect(await note.evaluate((one) => one === document.activeElement)).toBe(true);
    await keys.press('Tab');
    expect(await focused()).toBe('All trade words');
    await keys.press('Enter');
    await help.waitFor({ state: 'hidden' });
    await page.getByRole('heading', { name: 'Trade words', level: 1 }).waitFor();
    await page.getByText('Silverskin', { exact: false }).first().waitFor();
  });

  it.each([
    ['A4', 210, 297],
    ['Letter', 215.9, 279.4],
  ] as const)('end with a wall card on one page of %s', async (format, width, height) => {
    await go('/card');
    await page.getByRole('article', { name: 'Quick card' }).waitFor();
    await page.evaluate(() => document.fonts.ready);
    const sheets = await printed(page, format);
    expect(sheets).toHaveLength(1);
    const [sheet] = sheets;
    expect(Math.abs((sheet?.width ?? 0) - width * PT_PER_MM)).toBeLessThan(1);
    expect(Math.abs((sheet?.height ?? 0) - height * PT_PER_MM)).toBeLessThan(1);
    for (const words of [
      'Cold Creek Locker',
      'Local rules come first.',
      'Check in',
      'Hand over',
      '40°F (4.4°C)',
      '165°F (74°C)',
      '8450 g',
      'Ctrl K',
    ])
      expect(sheet?.words).toContain(words);
    expect(complaints).toEqual([]);
  });
});

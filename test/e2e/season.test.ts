/**
 * The Season in a real browser: the view is stored in the address, every mark is a link, images and printed pages
 * contain what they show.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { PNG } from 'pngjs';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { deskLine } from './desk-line.ts';
import { inked, pngOf, printed, PT_PER_MM } from './paper.ts';
import { sharedDemo, type Served } from './served.ts';

const KEEP = Boolean(process.env.KEEP_PICTURES);
/** A4 is 8.27 in wide; below 200 dpi an image looks coarse in print. */
const MIN_DOTS = Math.ceil(8.27 * 200);
const PAPERS = [
  { format: 'A4', width: 210, height: 297 },
  { format: 'Letter', width: 215.9, height: 279.4 },
] as const;

const folder = mkdtempSync(join(tmpdir(), 'gambrel-season-'));
const complaints: string[] = [];
let served: Served;
let browser: Browser;
let page: Page;
let call: Awaited<ReturnType<typeof deskLine>>;

beforeAll(async () => {
  [served, browser] = await Promise.all([sharedDemo(), openBrowser()]);
  call = await deskLine(await served.newAddress());
  // Dark, so that images and pages for print must differ from it.
  const context = await browser.newContext({
    viewport: { width: 1366, height: 768 },
    colorScheme: 'dark',
    locale: 'en-US',
    timezoneId: 'America/Denver',
    acceptDownloads: true,
  });
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(await served.newAddress());
  await page.getByRole('heading', { level: 1 }).first().waitFor();
});
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  if (KEEP) console.log(`The pictures are in ${folder}`);
  else rmSync(folder, { recursive: true, force: true });
});

async function goTo(place: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), `#${place}`);
  await page.waitForURL((url) => url.hash === `#${place}`);
  await page.getByRole('heading', { level: 1 }).first().waitFor();
}
const at = (hash: string) => page.waitForURL((url) => url.hash === hash);
const card = (title: string) =>
  page.locator('section').filter({ has: page.getByRole('heading', { name: title, exact: true }) });

const filterFor = (label: string) =>
  page.getByRole('group', { name: 'Filter' }).getByLabel(label, { exact: true });

/** Presses a save button of a chart, and reads the saved file. */
async function saved(title: string, button: string): Promise<{ name: string; content: Buffer }> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    card(title).getByRole('button', { name: button }).click(),
  ]);
  return { name: download.suggestedFilename(), content: readFileSync(await download.path()) };
}

describe('the filter', () => {
  it('stays in the address across views, and the back button undoes a choice', async () => {
    await goTo('/season');
    await page.getByRole('button', { name: 'Change filters' }).click();
    await filterFor('Species').selectOption('elk');
    await at('#/season?species=elk');
    await page.getByText('2026 · Elk').waitFor();
    await filterFor('Came in as').selectOption('skinned');
    await at('#/season?species=elk&brought=skinned');
    await page.getByRole('link', { name: 'Where it went' }).click();
    await at('#/season/pounds?species=elk&brought=skinned');
    await page.getByRole('button', { name: 'Change filters' }).click();
    expect(await filterFor('Came in as').inputValue()).toBe('skinned');
    await page.goBack();
    await page.goBack();
    await at('#/season?species=elk');
    await page.getByRole('button', { name: 'Change filters' }).click();
    expect(await filterFor('Came in as').inputValue()).toBe('');
    await page.getByRole('button', { name: 'Show all animals' }).click();
    await at('#/season');
  });

  it('matches the desk’s count', async () => {
    const { animals } = await call('season.yields', { species: 'elk', brought: 'skinned' });
    await goTo('/season/animals?species=elk&brought=skinned');
    await card('Animals').getByText(`${animals} animals`, { exact: true }).waitFor();
    expect(await page.locator('tbody tr').count()).toBe(animals);
  });

  it('shows a message for invalid values, with a way back', async () => {
    await goTo('/season?species=bison&brought=boned');
    await page.getByText('No animals match.').waitFor();
    await goTo('/season?from=2026-11-09&to=2026-11-01');
    await page.getByText(/The first date is after the last/).waitFor();
  });
});

describe('marks', () => {
  it('of the weights link to their animals, largest first', async () => {
    await goTo('/season/pounds');
    await page
      .getByRole('link', { name: /^Bone: / })
      .first()
      .click();
    await at('#/season/animals?detail=detailed&order=bone');
    const { animals } = await call('season.drilldown', { detail: 'detailed', order: 'bone' });
    const first = page.locator('tbody tr').first();
    await first.getByText(animals[0]?.ticket ?? '').waitFor();
    await page
      .getByRole('columnheader', { name: /Ticket/ })
      .getByRole('button')
      .press('Enter');
    await at('#/season/animals?detail=detailed&order=ticket');
    await first.getByRole('link').click();
    await page.waitForURL(/#\/table\/26-\d{4}$/);
  });

  it('of groups and seasons link to their animals', async () => {
    await goTo('/season?species=elk');
    await page.getByRole('link', { name: /^Skinned: / }).press('Enter');
    await at('#/season/animals?species=elk&brought=skinned&order=takeHome');
    await goTo('/season?species=elk');
    await page.getByRole('link', { name: /^Elk 2025: / }).click();
    await at('#/season/animals?season=2025&species=elk&order=takeHome');
  });

  it('of single animals open the animal by key and by pointer', async () => {
    const { species } = await call('season.yields', { species: 'elk' });
    const tickets = species[0]?.points.map(({ ticket }) => ticket) ?? [];
    await goTo('/season?species=elk');
    // One stop of the Tab key for the whole chart: the box first, then the points from left to right.
    const marks = card('Take-home by species').getByRole('group', { name: /^Marks of the chart/ });
    await marks.getByRole('link').first().focus();
    await page.keyboard.press('ArrowRight');
    const least = await marks.locator('[tabindex="0"]').getAttribute('aria-label');
    await page.keyboard.press('Enter');
    await page.waitForURL(/#\/table\//);
    const opened = /#\/table\/(.*)$/.exec(page.url())?.[1] ?? '';
    expect(least).toContain(opened);
    // The farthest point to the right, with the pointer.
    await goTo('/season?species=elk');
    await marks.getByRole('link').first().focus();
    await page.keyboard.press('End');
    const last = await marks.locator('[tabindex="0"]').boundingBox();
    if (!last) throw new Error('no mark');
    await page.mouse.click(last.x + last.width / 2, last.y + last.height / 2);
    await page.waitForURL(/#\/table\//);
    expect(tickets).toContain(/#\/table\/(.*)$/.exec(page.url())?.[1]);
    expect(tickets).toContain(opened);
  });
});

describe('two groups', () => {
  it('are compared in words, stored in the address, and reset', async () => {
    await goTo('/season/compare');
    const finding = page.locator('.finding');
    await finding.getByText(/The true difference is|No clear difference between/).waitFor();
    await page.getByRole('radio', { name: 'Bone' }).check({ force: true });
    await page
      .getByRole('group', { name: 'Second group' })
      .getByLabel('Species', { exact: true })
      .selectOption('pronghorn');
    await page.waitForURL(/by=bone/);
    await page.waitForURL(/b\.species=pronghorn/);
    await finding.getByText(/bone than Pronghorn|No clear difference between .* and Pronghorn/).waitFor();
    const { difference } = await call('season.compare', {
      by: 'bone',
      a: { season: 2026, species: 'mule-deer' },
      b: { season: 2026, species: 'pronghorn' },
    });
    if (!difference) throw new Error('The demo has too few animals to compare.');
    const points = (share: number): string => `${Math.abs(share * 100).toFixed(1)} points`;
    for (const end of [difference.low, difference.high]) await finding.getByText(points(end)).waitFor();
    await page.goBack();
    await page.waitForURL((url) => !url.hash.includes('pronghorn'));
  });
});

describe('saved files', () => {
  it.each([
    ['/season', 'Take-home by species', 'take-home-2026'],
    ['/season', 'What makes a difference', 'parted-brought-2026'],
    ['/season/pounds', 'Where every pound went', 'pounds-2026'],
  ])('of %s, %s, are a picture fit for print and a table with its data', async (place, title, name) => {
    await goTo(place);
    await card(title).getByRole('button', { name: 'Save as picture' }).waitFor();
    const picture = await saved(title, 'Save as picture');
    expect(picture.name).toBe(`${name}.png`);
    if (KEEP) writeFileSync(join(folder, picture.name), picture.content);
    const png = PNG.sync.read(picture.content);
    expect(png.width).toBeGreaterThanOrEqual(MIN_DOTS);
    // White paper from a dark window, with more than text on it.
    expect([...png.data.subarray(0, 3)]).toEqual([255, 255, 255]);
    const colors = new Set<number>();
    for (let i = 0; i < png.data.length; i += 4 * 97) colors.add(png.data.readUIntBE(i, 3));
    expect(colors.size).toBeGreaterThan(12);

    const table = await saved(title, 'Save as table (CSV)');
    expect(table.name).toBe(`${name}.csv`);
    // Parsed by another vendor's reader, which rejects rows of unequal length.
    expect(parse(table.content.toString('utf8')).length).toBeGreaterThan(5);
  });
});

describe.each(PAPERS)('the report on $format', { timeout: 120_000 }, ({ format, width, height }) => {
  it('has a cover, a page for each species and its sources, without the frame', async () => {
    const { species } = await call('season.yields', {});
    await goTo('/season');
    await page.getByRole('button', { name: 'Season report' }).click();
    await at('#/season/report');
    await page.getByRole('article', { name: 'Season report 2026' }).waitFor();
    await page.locator('.report canvas').last().waitFor();
    await page.waitForTimeout(1500);
    const sheets = await printed(page, format);
    const told = species.filter(({ spread }) => spread !== null);
    expect(sheets[0]?.words).toContain('Findings');
    for (const { name, spread } of told) {
      const own = sheets.filter(({ words }) => words.startsWith(`${name} n = ${spread?.n} animal`));
      expect(own, `pages of ${name}`).toHaveLength(1);
    }
    const all = sheets.map(({ words }) => words).join(' ');
    for (const said of [
      'Where every pound went',
      'Hanging, day by day',
      'Billed and cost, by service',
      'Fat by batch',
      'Quote accuracy by species',
      'Published range for Elk',
      'Sources and chart notes',
    ])
      expect(all).toContain(said);
    expect(all).not.toMatch(/Print or save|‹ Back|Leave the demo|NaN|undefined/);
    for (const [i, sheet] of sheets.entries()) {
      expect(Math.abs(sheet.width - width * PT_PER_MM)).toBeLessThan(1);
      expect(Math.abs(sheet.height - height * PT_PER_MM)).toBeLessThan(1);
      expect(sheet.words.length, `words of sheet ${i + 1}`).toBeGreaterThan(60);
    }
    // Rendering a sheet takes seconds: the cover and one species' page represent all.
    const own = sheets.findIndex(({ words }) => words.startsWith(told[0]?.name ?? ''));
    for (const [i, sheet] of [sheets[0], sheets[own]].entries()) {
      const picture = await sheet?.picture();
      if (!picture) throw new Error('no sheet');
      if (KEEP) writeFileSync(join(folder, `report-${format}-${i}.png`), pngOf(picture));
      const share = inked(picture, { left: 0, top: 0, width, height });
      expect(share).toBeGreaterThan(0.001);
      expect(share).toBeLessThan(0.4);
      for (const left of [0, width - 10]) expect(inked(picture, { left, top: 0, width: 10, height })).toBe(0);
    }
    // Cover, sources (at most three) and at most twenty-one pages for all animals.
    expect(sheets.length).toBeLessThanOrEqual(told.length + 24);
  });
});

it('raised no console errors', () => expect(complaints).toEqual([]));

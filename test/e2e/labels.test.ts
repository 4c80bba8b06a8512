/** Labels and tags as printed: paper size, codes read back, letters of 3/8 in, nothing clipped. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { cutOff, edgeInk, MIN_LETTER, letterHeight, onSheet } from './label-checks.ts';
import { fillShop, LINKS, LONG_COUNT, LONG_HUNTER, LONG_PRODUCT, type LabelShop } from './label-shop.ts';
import { inked, pngOf, printed, PT_PER_MM, readCode, turnedBack, type Picture, type Piece, type Sheet } from './paper.ts'; // prettier-ignore
import { serve, type Served } from './served.ts';

/** All packages of the sausage. */
const COUNT = LONG_COUNT + LINKS;
/** Nominal size of each paper, in millimeters. */
const PACKAGE_PAPERS = [
  { name: '4 × 3 in', page: [101.6, 76.2], each: 1 },
  { name: '4 × 2 in', page: [101.6, 50.8], each: 1 },
  { name: '62 mm roll', page: [62, 100], each: 1 },
  { name: 'Letter sheet', page: [215.9, 279.4], each: 10 },
  { name: 'A4 sheet', page: [210, 297], each: 10 },
] as const;
const TAG_PAPERS = [
  { name: '4 × 6 in', page: [101.6, 152.4], turned: false },
  { name: 'Wrist band', page: [25, 250], turned: true },
] as const;

const ALSO = 'salt, mustard, milk powder, jalapeño, garlic, black pepper, sugar';
const KEEP = Boolean(process.env.KEEP_PICTURES);
const pictures = mkdtempSync(join(tmpdir(), 'gambrel-labels-'));
const complaints: string[] = [];
let served: Served;
let browser: Browser;
let page: Page;
let shop: LabelShop;

beforeAll(async () => {
  shop = await fillShop();
  served = await serve('--book', shop.bookPath);
  browser = await openBrowser();
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 }, locale: 'en-US' });
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(await served.newAddress());
  await page.getByRole('heading', { level: 1 }).first().waitFor();
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  if (KEEP) console.log(`The pictures of what was printed are in ${pictures}`);
  else rmSync(pictures, { recursive: true, force: true });
});

const articles = () => page.locator('article');

async function goTo(place: string, paper: string): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), `#${place}`);
  const [, , kind, which] = place.split('/');
  const title =
    kind === 'batch'
      ? /^Labels for batch /
      : kind === 'tag'
        ? `Carcass tag for ${which}`
        : `Labels for ${which}`;
  await page.getByRole('heading', { level: 1, name: title }).waitFor();
  await page.getByRole('radio', { name: paper, exact: true }).check({ force: true });
  await articles().first().waitFor();
  await page.evaluate(() => document.fonts.ready);
}

/** Prints, and checks every sheet's size to 0.6 pt, the browser's precision. */
async function print([width, height]: readonly [number, number]): Promise<Sheet[]> {
  const sheets = await printed(page);
  for (const sheet of sheets) {
    expect(Math.abs(sheet.width - width * PT_PER_MM)).toBeLessThan(0.6);
    expect(Math.abs(sheet.height - height * PT_PER_MM)).toBeLessThan(0.6);
  }
  return sheets;
}

/** One sheet as pixels. With KEEP_PICTURES set it is saved in the temporary folder. */
async function pictureOf(sheet: Sheet | undefined, name: string): Promise<Picture> {
  if (!sheet) throw new Error(`${name}: that sheet was not printed`);
  const picture = await sheet.picture();
  if (KEEP) writeFileSync(join(pictures, `${name.replace(/\W+/g, '-')}.png`), pngOf(picture));
  return picture;
}

function needed(piece: Piece | undefined): Piece {
  if (!piece) throw new Error('Something is missing on the label');
  return piece;
}
const plain = (text: string): string => text.replace(/\s+/g, '');

describe.each(PACKAGE_PAPERS)('package labels on $name', ({ name, page: paper, each }) => {
  it('match the count on the button, have the right size, and are not clipped', async () => {
    await goTo(`/label/batch/${shop.batchId}`, name);
    await page.getByLabel(`Other ingredients of ${LONG_PRODUCT}`).fill(ALSO);
    expect(await articles().count()).toBe(COUNT);
    expect(await cutOff(page)).toEqual([]);
    const sheets = await print(paper);
    expect(sheets).toHaveLength(Math.ceil(COUNT / each));
    const promised =
      each === 1 ? `Print ${COUNT} labels` : `Print ${COUNT} labels on ${sheets.length} sheets`;
    await page.getByRole('button', { name: promised, exact: true }).waitFor();
    const [first] = await onSheet(page, 'article');
    const [width] = each === 1 ? paper : [first?.width ?? 0];
    expect(first?.width).toBeCloseTo(width, 1);
    const words = plain(sheets[0]?.words ?? '');
    for (const said of [
      LONG_PRODUCT,
      LONG_HUNTER,
      shop.tickets.elk,
      'Elk',
      'Packed Nov 24, 2026',
      'KEEP FROZEN',
      ALSO,
    ])
      expect(words).toContain(plain(said));
    // 11.35 lb in 11 packages: 1.0318 lb and 0.46803 kg each, both rounded down.
    expect(words).toContain(plain('NET WT 1.03 lb (0.468 kg) average of 11 packages weighed together'));
    expect(words).toContain(plain('Ingredients: Elk, Pork back fat. Also added:'));
    expect(words).toContain(plain('Cook to 165°F (74°C)'));
    expect(plain(sheets.at(-1)?.words ?? '')).toContain(plain('NET WT 1.00 lb (0.453 kg)'));
  });

  it('have readable barcodes and QR codes, NOT FOR SALE at the required height, and white margins', async () => {
    const sheets = await printed(page);
    const picture = await pictureOf(sheets[0], name);
    const [labels, sales, bars, squares] = await Promise.all(
      ['article', '.sale', '.bars', '.square'].map((what) => onSheet(page, what)),
    );
    expect(labels).toHaveLength(each);
    for (let i = 0; i < each; i++) {
      expect(readCode(picture, needed(bars?.[i]), 'bars')).toBe(shop.tickets.elk);
      expect(readCode(picture, needed(squares?.[i]), 'square')).toBe(shop.tickets.elk);
      expect(edgeInk(picture, needed(labels?.[i]))).toBe(0);
      expect(letterHeight(picture, needed(sales?.[i]))).toBeGreaterThanOrEqual(MIN_LETTER);
    }
  });
});

describe.each(TAG_PAPERS)('carcass tags on $name', ({ name, page: paper, turned }) => {
  it('are one for each piece, show the hold, have readable codes, and are not clipped', async () => {
    await goTo(`/label/tag/${shop.tickets.bear}`, name);
    await page.getByRole('button', { name: 'Print 4 tags', exact: true }).waitFor();
    expect(await cutOff(page)).toEqual([]);
    const sheets = await print(paper);
    expect(sheets).toHaveLength(4);
    const words = plain(sheets[3]?.words ?? '');
    for (const said of [
      shop.tickets.bear,
      'Black bear, boar',
      LONG_HUNTER,
      'B 33',
      'HOLD',
      'TRI-2026-00917',
      'Nov 24, 2026',
    ])
      // prettier-ignore
      expect(words).toContain(plain(said));
    const upright = await pictureOf(sheets[0], `tag ${name}`);
    const picture = turned ? turnedBack(upright) : upright;
    const [[tag], [sale], [bars], [square]] = await Promise.all([
      onSheet(page, 'article'), onSheet(page, '.sale'), onSheet(page, '.bars'), onSheet(page, '.square'),
    ]); // prettier-ignore
    expect(readCode(picture, needed(bars), 'bars')).toBe(shop.tickets.bear);
    expect(readCode(picture, needed(square), 'square')).toBe(shop.tickets.bear);
    expect(edgeInk(picture, needed(tag))).toBe(0);
    expect(letterHeight(picture, needed(sale))).toBeGreaterThanOrEqual(MIN_LETTER);
  });
});

describe('labels of a pooled batch', () => {
  it('divide the packages by lean among the owners, each under their ticket, separately or all at once', async () => {
    await goTo(`/label/batch/${shop.pooledId}`, '4 × 2 in');
    const whose = () => page.locator('article .strong').filter({ hasText: /^For / }).allTextContents();
    expect(await whose()).toEqual([
      ...Array<string>(4).fill('For Ann Alder'),
      ...Array<string>(2).fill('For Bo Birch'),
    ]);
    await page.getByText('Ingredients: White-tailed deer, Mule deer.').first().waitFor();
    const bo = page.getByRole('radio', { name: /^\d\d-0005/ });
    await bo.check({ force: true });
    await page.getByRole('button', { name: 'Print 2 labels', exact: true }).waitFor();
    expect(await whose()).toEqual(['For Bo Birch', 'For Bo Birch']);
    const [sheet] = await printed(page);
    const [bars] = await onSheet(page, '.bars');
    expect(readCode(await pictureOf(sheet, 'pooled'), needed(bars), 'bars')).toMatch(/^\d\d-0005$/);
  });
});

describe('links to labels', () => {
  const at = (place: string) => page.waitForURL((url) => url.hash === `#${place}`);

  it('lead from the batch, whose card previews the label', async () => {
    await page.evaluate((id) => (location.hash = `#/grinder/${id}`), shop.batchId);
    await articles().getByText('NET WT 1.00 lb (0.453 kg)').waitFor();
    await page.getByRole('button', { name: 'Print labels', exact: true }).click();
    await at(`/label/batch/${shop.batchId}`);
    await page.getByRole('link', { name: /^Back: / }).click();
    await at(`/grinder/${shop.batchId}`);
  });

  it('lead from the Table to an animal’s labels and tag', async () => {
    for (const [name, place] of [
      ['Print labels', 'animal'],
      ['Print the carcass tag', 'tag'],
    ] as const) {
      // prettier-ignore
      await page.evaluate((ticket) => (location.hash = `#/table/${ticket}`), shop.tickets.elk);
      await page.getByRole('link', { name, exact: true }).click();
      await at(`/label/${place}/${shop.tickets.elk}`);
    }
  });
});

describe('labels of one animal', () => {
  it('include its cuts and its share of ground meat', async () => {
    await goTo(`/label/animal/${shop.tickets.elk}`, '4 × 2 in');
    expect(await articles().count()).toBe(COUNT + 1);
    expect(await page.locator('article .product').allTextContents()).toEqual(
      ['Steaks', ...Array<string>(LONG_COUNT).fill(LONG_PRODUCT), 'Links'],
    ); // prettier-ignore
  });

  it('are shown once each, beside the options, with their number', async () => {
    const shown = page.locator('article').filter({ visible: true });
    expect(await shown.locator('.product').allInnerTexts()).toEqual(['Steaks', LONG_PRODUCT, 'Links']);
    expect(await page.locator('.times').allInnerTexts()).toEqual([`× ${LONG_COUNT}`]);
    const options = await page.getByRole('group', { name: 'Label', exact: true }).boundingBox();
    expect((await shown.first().boundingBox())?.x).toBeGreaterThan((options?.x ?? 0) + (options?.width ?? 0));
  });

  it('state the cooking temperature, and that a bear is not for sale', async () => {
    await goTo(`/label/animal/${shop.tickets.bear}`, '4 × 2 in');
    expect(await articles().first().innerText()).toContain('Cook to 165°F (74°C) in the center.');
    expect(await page.locator('article .sale').count()).toBe(1);
  });

  it('allow the sale of an inspected farm’s meat, as does its tag', async () => {
    await goTo(`/label/animal/${shop.tickets.bison}`, '4 × 2 in');
    expect(await articles().count()).toBe(1);
    expect(await page.locator('article .sale').count()).toBe(0);
    expect(await cutOff(page)).toEqual([]);
    await goTo(`/label/tag/${shop.tickets.bison}`, '4 × 6 in');
    await page.getByText('Bison, bull', { exact: true }).waitFor();
    expect(await page.locator('article .sale').count()).toBe(0);
  });
});

describe('the page of labels', () => {
  const SHEET = 'Letter sheet';

  it('stores the size on this computer and the ingredients in the book', async () => {
    await goTo(`/label/batch/${shop.batchId}`, SHEET);
    await page.reload();
    await articles().first().waitFor();
    expect(await page.getByRole('radio', { name: SHEET, exact: true }).isChecked()).toBe(true);
    expect(await page.getByLabel(`Other ingredients of ${LONG_PRODUCT}`).inputValue()).toBe(ALSO);
  });

  it('starts a used sheet at the next free label, and prints the requested number', async () => {
    await page.getByLabel(/^Labels of Links/).fill('0');
    await page.getByLabel(/^Labels of Smoked/).fill('2');
    await page.getByLabel('Labels already used').fill('9');
    const sheets = await print([215.9, 279.4]);
    expect(sheets).toHaveLength(2);
    const picture = await pictureOf(sheets[0], 'used sheet');
    const last = { left: 107.95, top: 215.9, width: 101.6, height: 50.8 };
    expect(inked(picture, last)).toBeGreaterThan(0.05);
    const [bars] = await onSheet(page, '.bars');
    expect(needed(bars).left).toBeGreaterThan(last.left);
    expect(readCode(picture, needed(bars), 'bars')).toBe(shop.tickets.elk);
    expect(inked(picture, { left: 0, top: 0, width: 215.9, height: 215 })).toBe(0);
    expect(inked(picture, { left: 0, top: 0, width: 107, height: 279.4 })).toBe(0);
  });

  it('rejects an excessive number with a message, and prints nothing', async () => {
    await page.getByLabel(/^Labels of Smoked/).fill('2O');
    await page.getByText('Type a whole number, 0 to 200.').waitFor();
    expect(await page.getByRole('button', { name: /^Print/ }).isDisabled()).toBe(true);
    await page.getByLabel(/^Labels of Smoked/).fill('2');
    expect(await page.getByRole('button', { name: /^Print/ }).isEnabled()).toBe(true);
  });

  it('reports a text that does not fit instead of clipping it', async () => {
    await page.getByRole('radio', { name: '4 × 2 in', exact: true }).check({ force: true });
    await page.getByLabel(`Other ingredients of ${LONG_PRODUCT}`).fill(`${ALSO}, `.repeat(12));
    await page.getByText('This does not fit on the label.').waitFor();
    expect(await page.getByRole('button', { name: /^Print/ }).isDisabled()).toBe(true);
    await page.getByLabel(/^Labels of Smoked/).fill('3');
    await page.getByText('This does not fit on the label.').waitFor();
    expect(await page.getByRole('button', { name: 'Print 3 labels' }).isDisabled()).toBe(true);
    // The check of this file detects it as well, so it can fail.
    expect((await cutOff(page)).length).toBeGreaterThan(0);
    await page.getByLabel(`Other ingredients of ${LONG_PRODUCT}`).fill(ALSO);
    await page.getByText('This does not fit on the label.').waitFor({ state: 'detached' });
    expect(await cutOff(page)).toEqual([]);
  });

  it('opens the print dialog once', async () => {
    await page.evaluate(() => {
      window.print = () => void (document.title += ' printed');
    });
    await page.getByRole('button', { name: /^Print/ }).click();
    await page.waitForFunction(() => document.title.endsWith('Gambrel printed'));
  });

  it.each(['light', 'dark'] as const)('is accessible in the %s theme', async (theme) => {
    await page.emulateMedia({ colorScheme: theme });
    await page.evaluate(axe.source);
    for (const place of [`/label/batch/${shop.batchId}`, `/label/tag/${shop.tickets.bear}`]) {
      await page.evaluate((hash) => (location.hash = hash), `#${place}`);
      await articles().first().waitFor();
      const { violations } = await page.evaluate(() =>
        (window as unknown as { axe: typeof axe }).axe.run(document, { resultTypes: ['violations'] }),
      );
      expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
      const overflow = () => document.documentElement.scrollWidth - document.documentElement.clientWidth;
      expect(await page.evaluate(overflow)).toBe(0);
    }
  });

  it('does not change the paper of other pages', async () => {
    await page.evaluate(() => (location.hash = '#/rail'));
    await articles().first().waitFor({ state: 'detached' });
    const [sheet] = await printed(page);
    expect([sheet?.width, sheet?.height]).toEqual([612, 792]);
  });

  it('raised no console errors', () => expect(complaints).toEqual([]));
});

/** Labels and tags as they leave a printer: paper size, codes read back, letters of 3/8 in, nothing cut off. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from '../desk/fresh-desk.ts';
import { openBrowser } from './browser.ts';
import { inked, inkHeight, pngOf, printed, PT_PER_MM, readCode, turnedBack, type Picture, type Piece, type Sheet } from './paper.ts'; // prettier-ignore
import { serve, type Served } from './served.ts';

/** Sixty letters each, with words in them that do not want to be broken. */
const LONG_HUNTER = 'Bartholomew Featherstonehaugh-Cholmondeley of Upper Elkcreek';
const LONG_PRODUCT = 'Smoked Jalapeño-Cheddar Summer Sausages, Mild, Coarse Ground';
const ALSO = 'salt, mustard, milk powder, jalapeño, garlic, black pepper, sugar';
/** Packages of the long-named sausage and of links. */
const [LONG_COUNT, LINKS] = [11, 1];
const COUNT = LONG_COUNT + LINKS;
/** The least height of letters that custom meat is marked with (9 CFR 316.16, 317.16), mm. */
const LEAST_LETTER = 9.525;

/** Millimetres of each paper, from the box that it is sold in. */
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

const KEEP = Boolean(process.env.KEEP_PICTURES);
const pictures = mkdtempSync(join(tmpdir(), 'gambrel-labels-'));
const complaints: string[] = [];
let served: Served;
let browser: Browser;
let page: Page;
let batchId: number;
const tickets = { elk: '', bear: '', bison: '' };

/** A hunter's elk with pork in its sausage, a bear on hold that came in four pieces, a bison of an inspected farm. */
async function fill(): Promise<string> {
  const shop = await freshDesk('lb', '2026-11-24T18:00:00Z');
  const whose = { name: LONG_HUNTER };
  const elk = await takeIn(shop, { hunter: whose, tag: 'EL-2026-0048812', licence: '771 204 118' });
  await cut(shop, elk, { trim: '60.00' });
  await shop.call('fat.buy', { source: 'pork-back-fat', typed: '40' });
  const [lot] = await shop.call('fat.lots', {});
  const plan = { animals: [{ id: elk }], fat: 'pork-back-fat', targetFat: 0.125, product: 'Sausage' };
  batchId = (await shop.call('grinder.start', plan)).id;
  await shop.call('grinder.weighIn', { batchId, animalId: elk, part: 'trim', typed: '60.00' });
  await shop.call('grinder.weighIn', { batchId, fatLotId: lot?.id ?? 0, part: 'fat added', typed: '8.70' });
  await shop.call('grinder.pack', { batchId, product: LONG_PRODUCT, count: LONG_COUNT, typed: '11.35' });
  await shop.call('grinder.pack', { batchId, product: 'Links', count: LINKS, typed: '1.00' });
  const bear = await takeIn(shop, {
    hunter: whose, species: 'black-bear', brought: 'quarters', sample: 'TRI-2026-00917', tag: 'B 33',
    parts: [{ primal: 'ham', count: 2 }, { primal: 'shoulder', count: 2 }],
  }, null); // prettier-ignore
  const bison = await takeIn(shop, { hunter: { name: 'Cold Spring' }, species: 'bison', origin: 'farm' });
  const steaks = { stage: 'packed', part: 'package', product: 'Steaks', count: 1, typed: '2.00' } as const;
  for (const animalId of [elk, bear, bison]) await shop.call('table.weigh', { ...steaks, animalId });
  for (const [name, id] of Object.entries({ elk, bear, bison }))
    tickets[name as 'elk'] = (await shop.call('animals.open', { id })).ticket;
  await shop.desk.close();
  return shop.bookPath;
}

beforeAll(async () => {
  served = await serve('--book', await fill());
  browser = await openBrowser();
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 }, locale: 'en-US' });
  page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(served.address);
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
  await page.getByRole('radio', { name: paper, exact: true }).check({ force: true });
  await articles().first().waitFor();
  await page.evaluate(() => document.fonts.ready);
}

/** Prints, and checks every sheet's size to 0.6 pt, which is as fine as a browser cuts paper. */
async function print([width, height]: readonly [number, number]): Promise<Sheet[]> {
  const sheets = await printed(page);
  for (const sheet of sheets) {
    expect(Math.abs(sheet.width - width * PT_PER_MM)).toBeLessThan(0.6);
    expect(Math.abs(sheet.height - height * PT_PER_MM)).toBeLessThan(0.6);
  }
  return sheets;
}

/** One sheet as dots. With KEEP_PICTURES set they stay in the temporary folder, to be looked at. */
async function pictureOf(sheet: Sheet | undefined, name: string): Promise<Picture> {
  if (!sheet) throw new Error(`${name}: that sheet was not printed`);
  const picture = await sheet.picture();
  if (KEEP) writeFileSync(join(pictures, `${name.replace(/\W+/g, '-')}.png`), pngOf(picture));
  return picture;
}

/** Where elements stand on the nth sheet, in millimetres, before any quarter turn. */
function onSheet(selector: string, nth = 0): Promise<Piece[]> {
  return page.evaluate(
    ([what, n]) => {
      const paper = document.querySelectorAll('.paper')[n];
      if (!paper) throw new Error(`There is no sheet ${n}`);
      const origin = paper.getBoundingClientRect();
      const mm = (px: number): number => (px * 25.4) / 96;
      return [...paper.querySelectorAll(what)].map((element) => {
        const box = element.getBoundingClientRect();
        return {
          left: mm(box.left - origin.left), top: mm(box.top - origin.top), width: mm(box.width), height: mm(box.height),
        };
      });
    },
    [selector, nth] as const,
  ); // prettier-ignore
}

/**
 * Everything that stands out of where it belongs, in words: lines out of their column, things out of the label. Letters
 * are looked at sideways only: their boxes hold room above and below that nothing is drawn in, and what is drawn in
 * the wrong place shows in the white edges of the picture.
 */
function cutOff(): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const SLACK = 1.2; // pixels
    const outAcross = (box: DOMRect, of: DOMRect): boolean => box.left < of.left - SLACK || box.right > of.right + SLACK; // prettier-ignore
    const outDown = (box: DOMRect, of: DOMRect): boolean => box.top < of.top - SLACK || box.bottom > of.bottom + SLACK; // prettier-ignore
    for (const article of document.querySelectorAll('article')) {
      const words = article.querySelector('.words');
      if (!words) return ['a label without words'];
      for (const element of article.querySelectorAll('*')) {
        const home = (words !== element && words.contains(element) ? words : article).getBoundingClientRect();
        const box = element.getBoundingClientRect();
        if (outAcross(box, home) || (element.tagName !== 'text' && outDown(box, home)))
          found.push(`${element.tagName} ${element.textContent}`);
      }
      const walker = document.createTreeWalker(words, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const range = document.createRange();
        range.selectNodeContents(node);
        const column = words.getBoundingClientRect();
        if ([...range.getClientRects()].some((box) => outAcross(box, column)))
          found.push(node.textContent ?? '');
      }
      if (Number.parseFloat(getComputedStyle(words).fontSize) < 96 / 16 - 0.01)
        found.push('type below 1/16 in');
    }
    return found;
  });
}

/** A thin frame along the edge of a label must stay white: what is cut off would run into it. */
function edgeInk(picture: Picture, { left, top, width, height }: Piece): number {
  const wide = 0.8;
  const inset = 0.3;
  const across = { left: left + inset, width: width - 2 * inset, height: wide };
  const down = { top: top + inset, height: height - 2 * inset, width: wide };
  return Math.max(
    inked(picture, { ...across, top: top + inset }),
    inked(picture, { ...across, top: top + height - inset - wide }),
    inked(picture, { ...down, left: left + inset }),
    inked(picture, { ...down, left: left + width - inset - wide }),
  );
}

/** The letter N stands flat above and below: a sliver of its left stem is as high as the capitals. */
function letterHeight(picture: Picture, sale: Piece): number {
  return inkHeight(picture, { ...sale, left: sale.left, width: sale.width * 0.05 });
}
function needed(piece: Piece | undefined): Piece {
  if (!piece) throw new Error('Something is missing on the label');
  return piece;
}
const plain = (text: string): string => text.replace(/\s+/g, '');

describe.each(PACKAGE_PAPERS)('package labels on $name', ({ name, page: paper, each }) => {
  it('are the sheets that the button promises, each of the right size, nothing cut off', async () => {
    await goTo(`/label/batch/${batchId}`, name);
    await page.getByLabel(`Also in ${LONG_PRODUCT}`).fill(ALSO);
    expect(await articles().count()).toBe(COUNT);
    expect(await cutOff()).toEqual([]);
    const sheets = await print(paper);
    expect(sheets).toHaveLength(Math.ceil(COUNT / each));
    const promised =
      each === 1 ? `Print ${COUNT} labels` : `Print ${COUNT} labels on ${sheets.length} sheets`;
    await page.getByRole('button', { name: promised, exact: true }).waitFor();
    const [first] = await onSheet('article');
    const [width] = each === 1 ? paper : [first?.width ?? 0];
    expect(first?.width).toBeCloseTo(width, 1);
    const words = plain(sheets[0]?.words ?? '');
    for (const said of [
      LONG_PRODUCT,
      LONG_HUNTER,
      tickets.elk,
      'Elk',
      'Packed Nov 24, 2026',
      'KEEP FROZEN',
      ALSO,
    ])
      expect(words).toContain(plain(said));
    // 11.35 lb in 11 packages: 1.0318 lb and 0.46803 kg each, both rounded down.
    expect(words).toContain(plain('NET WT 1.03 lb (0.468 kg) on average: 11 were weighed together'));
    expect(words).toContain(plain('Ingredients: elk, pork back fat. Also in it:'));
    expect(words).toContain(plain('Cook to 160 °F (71 °C)'));
    expect(plain(sheets.at(-1)?.words ?? '')).toContain(plain('NET WT 1.00 lb (0.453 kg)'));
  });

  it('are read back by a reader, bars and square, say NOT FOR SALE high enough, and keep their edges white', async () => {
    const sheets = await printed(page);
    const picture = await pictureOf(sheets[0], name);
    const [labels, sales, bars, squares] = await Promise.all(
      ['article', '.sale', '.bars', '.square'].map((what) => onSheet(what)),
    );
    expect(labels).toHaveLength(each);
    for (let i = 0; i < each; i++) {
      expect(readCode(picture, needed(bars?.[i]), 'bars')).toBe(tickets.elk);
      expect(readCode(picture, needed(squares?.[i]), 'square')).toBe(tickets.elk);
      expect(edgeInk(picture, needed(labels?.[i]))).toBe(0);
      expect(letterHeight(picture, needed(sales?.[i]))).toBeGreaterThanOrEqual(LEAST_LETTER);
    }
  });
});

describe.each(TAG_PAPERS)('carcass tags on $name', ({ name, page: paper, turned }) => {
  it('are one for each piece, with the hold marked, read back by a reader, nothing cut off', async () => {
    await goTo(`/label/tag/${tickets.bear}`, name);
    await page.getByRole('button', { name: 'Print 4 tags', exact: true }).waitFor();
    expect(await cutOff()).toEqual([]);
    const sheets = await print(paper);
    expect(sheets).toHaveLength(4);
    const words = plain(sheets[3]?.words ?? '');
    for (const said of [
      tickets.bear,
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
      onSheet('article'), onSheet('.sale'), onSheet('.bars'), onSheet('.square'),
    ]); // prettier-ignore
    expect(readCode(picture, needed(bars), 'bars')).toBe(tickets.bear);
    expect(readCode(picture, needed(square), 'square')).toBe(tickets.bear);
    expect(edgeInk(picture, needed(tag))).toBe(0);
    expect(letterHeight(picture, needed(sale))).toBeGreaterThanOrEqual(LEAST_LETTER);
  });
});

describe('labels of one animal', () => {
  it('hold its cuts and its share of what was ground', async () => {
    await goTo(`/label/animal/${tickets.elk}`, '4 × 2 in');
    expect(await articles().count()).toBe(COUNT + 1);
    expect(await page.locator('article .product').allInnerTexts()).toEqual(
      ['Steaks', ...Array<string>(LONG_COUNT).fill(LONG_PRODUCT), 'Links'],
    ); // prettier-ignore
  });

  it('say 165 °F for a bear', async () => {
    await goTo(`/label/animal/${tickets.bear}`, '4 × 2 in');
    expect(await articles().first().innerText()).toContain('Cook to 165 °F (74 °C) in the middle.');
    expect(await page.locator('article .sale').count()).toBe(1);
  });

  it('do not forbid the sale of an inspected farm’s meat, nor does its tag', async () => {
    await goTo(`/label/animal/${tickets.bison}`, '4 × 2 in');
    expect(await articles().count()).toBe(1);
    expect(await page.locator('article .sale').count()).toBe(0);
    expect(await cutOff()).toEqual([]);
    await goTo(`/label/tag/${tickets.bison}`, '4 × 6 in');
    await page.getByText('Bison, bull', { exact: true }).waitFor();
    expect(await page.locator('article .sale').count()).toBe(0);
  });
});

describe('the page of labels', () => {
  const SHEET = 'Letter sheet';

  it('keeps the size and what is in a recipe on this computer', async () => {
    await goTo(`/label/batch/${batchId}`, SHEET);
    await page.reload();
    await articles().first().waitFor();
    expect(await page.getByRole('radio', { name: SHEET, exact: true }).isChecked()).toBe(true);
    expect(await page.getByLabel(`Also in ${LONG_PRODUCT}`).inputValue()).toBe(ALSO);
  });

  it('begins a used sheet where it left off, and prints as many as are asked for', async () => {
    await page.getByLabel(/^Labels of Links/).fill('0');
    await page.getByLabel(/^Labels of Smoked/).fill('2');
    await page.getByLabel('Places already used').fill('9');
    const sheets = await print([215.9, 279.4]);
    expect(sheets).toHaveLength(2);
    const picture = await pictureOf(sheets[0], 'used sheet');
    const last = { left: 107.95, top: 215.9, width: 101.6, height: 50.8 };
    expect(inked(picture, last)).toBeGreaterThan(0.05);
    const [bars] = await onSheet('.bars');
    expect(needed(bars).left).toBeGreaterThan(last.left);
    expect(readCode(picture, needed(bars), 'bars')).toBe(tickets.elk);
    expect(inked(picture, { left: 0, top: 0, width: 215.9, height: 215 })).toBe(0);
    expect(inked(picture, { left: 0, top: 0, width: 107, height: 279.4 })).toBe(0);
  });

  it('prints nothing on a slip of the finger, and says so', async () => {
    await page.getByLabel(/^Labels of Smoked/).fill('2O');
    await page.getByText('Type a whole number, 0 to 200.').waitFor();
    expect(await page.getByRole('button', { name: /^Print/ }).isDisabled()).toBe(true);
    await page.getByLabel(/^Labels of Smoked/).fill('2');
    expect(await page.getByRole('button', { name: /^Print/ }).isEnabled()).toBe(true);
  });

  it('says when a text is too long for the label instead of cutting it off', async () => {
    await page.getByRole('radio', { name: '4 × 2 in', exact: true }).check({ force: true });
    await page.getByLabel(`Also in ${LONG_PRODUCT}`).fill(`${ALSO}, `.repeat(12));
    await page.getByText('This does not fit on the label.').waitFor();
    expect(await page.getByRole('button', { name: /^Print/ }).isDisabled()).toBe(true);
    // The check of this file sees it as well: it can fail.
    expect((await cutOff()).length).toBeGreaterThan(0);
    await page.getByLabel(`Also in ${LONG_PRODUCT}`).fill(ALSO);
    await page.getByText('This does not fit on the label.').waitFor({ state: 'detached' });
    expect(await cutOff()).toEqual([]);
  });

  it('opens the print dialog once', async () => {
    await page.evaluate(() => {
      window.print = () => void (document.title += ' printed');
    });
    await page.getByRole('button', { name: /^Print/ }).click();
    await page.waitForFunction(() => document.title.endsWith('Gambrel printed'));
  });

  it.each(['light', 'dark'] as const)('can be used by everybody in the %s theme', async (theme) => {
    await page.emulateMedia({ colorScheme: theme });
    await page.evaluate(axe.source);
    for (const place of [`/label/batch/${batchId}`, `/label/tag/${tickets.bear}`]) {
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

  it('leaves other places their own paper', async () => {
    await page.evaluate(() => (location.hash = '#/rail'));
    await articles().first().waitFor({ state: 'detached' });
    const [sheet] = await printed(page);
    expect([sheet?.width, sheet?.height]).toEqual([612, 792]);
  });

  it('made the browser complain of nothing', () => expect(complaints).toEqual([]));
});

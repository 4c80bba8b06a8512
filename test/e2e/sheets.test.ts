/** Printed bills and quotes, on A4 and Letter: long names, forty lines, no lines. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CallInput } from '../../src/bridge/contract.ts';
import { inked, pngOf, printed, PT_PER_MM, type Sheet } from './paper.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

/** Millimeters. */
const PAPERS = [
  { format: 'A4', width: 210, height: 297 },
  { format: 'Letter', width: 215.9, height: 279.4 },
] as const;
/** The page rule leaves a margin of 14 mm; the test requires slightly less. */
const MARGIN = 13;
const LONG_SHOP =
  'Bartholomew & Featherstonehaugh Wild Game Processing, Smokehouse and Taxidermy of Upper Cottonwood Creek';
const LONG_HUNTER =
  'Maximiliane-Theodora Wolfeschlegelsteinhausenbergerdorff von und zu Hohenlohe-Langenburg the Younger';
const LONG_WORD = 'Sommerwurstundlandjägermitwacholderbeerenundkümmel'.repeat(2);
const LINES = 40;

const KEEP = Boolean(process.env.KEEP_PICTURES);
const pictures = mkdtempSync(join(tmpdir(), 'gambrel-sheets-'));
let shop: ShopWindow;
let tickets: { many: string; none: string };
let quotes: { many: number; none: number };

const many: CallInput<'prices.save'>['lines'] = Array.from({ length: LINES }, (_, i) => ({
  code: `line-${i + 1}`, label: i === 7 ? LONG_WORD : `Work number ${i + 1}, done by hand and with great care for every last piece`,
  basis: 'animal', amountMinor: 123_456 + i, rate: null, unit: null, species: null, brought: null, product: null,
  fatSource: null, taxRate: 0.06,
})); // prettier-ignore
const ORDERS = {
  cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: '',
}; // prettier-ignore
const ask = {
  species: 'mule-deer', brought: 'skinned', stage: 'hanging', typed: '80', instructions: ORDERS, hunterName: LONG_HUNTER,
} as const; // prettier-ignore

beforeAll(async () => {
  shop = await openShop();
  await shop.call('shop.saveSettings', { changes: { shopName: LONG_SHOP } });
  const prices = (lines: typeof many) =>
    shop.call('prices.save', { name: 'Prices', validFrom: '2020-01-01', taxRule: 'per bill', lines });
  const hunter = { name: LONG_HUNTER, address: `1 ${'Very Long Road, '.repeat(8)}Cottonwood Creek` };
  const billed = async (): Promise<string> => {
    const { id, ticket } = await deerAtDesk(shop, LONG_HUNTER, {}, { hunter });
    await shop.call('bills.create', { animalId: id, confirmed: true });
    return ticket;
  };
  await prices(many);
  const manyLines = { ticket: await billed(), quote: await shop.call('quotes.save', ask) };
  await prices([]);
  const noLines = { ticket: await billed(), quote: await shop.call('quotes.save', ask) };
  tickets = { many: manyLines.ticket, none: noLines.ticket };
  quotes = { many: manyLines.quote.id, none: noLines.quote.id };
}, 120_000);
afterAll(async () => {
  await shop?.close();
  if (KEEP) console.log(`The pictures of what was printed are in ${pictures}`);
  else rmSync(pictures, { recursive: true, force: true });
});

const plain = (text: string): string => text.replace(/\s+/g, '');
const wordsOf = (sheets: readonly Sheet[]): string => plain(sheets.map(({ words }) => words).join(''));
const times = (text: string, part: string): number => text.split(part).length - 1;

/** Opens the sheet, prints it, and checks size and margins. */
async function print(place: string, title: RegExp, paper: (typeof PAPERS)[number]): Promise<Sheet[]> {
  await shop.page.evaluate((hash) => (location.hash = hash), `#${place}`);
  await shop.page.waitForURL((url) => url.hash === `#${place}`);
  await shop.page.getByRole('article', { name: title }).waitFor();
  await shop.page.evaluate(() => document.fonts.ready);
  const { width, height, format } = paper;
  const sheets = await printed(shop.page, format);
  for (const [i, sheet] of sheets.entries()) {
    expect(Math.abs(sheet.width - width * PT_PER_MM)).toBeLessThan(1);
    expect(Math.abs(sheet.height - height * PT_PER_MM)).toBeLessThan(1);
    const picture = await sheet.picture();
    if (KEEP)
      writeFileSync(join(pictures, `${place.replace(/\W+/g, '-')}-${format}-${i + 1}.png`), pngOf(picture));
    const edges = [
      { left: 0, top: 0, width: MARGIN, height },
      { left: width - MARGIN, top: 0, width: MARGIN, height },
      { left: 0, top: 0, width, height: MARGIN },
      { left: 0, top: height - MARGIN, width, height: MARGIN },
    ];
    expect(edges.map((edge) => inked(picture, edge))).toEqual([0, 0, 0, 0]);
    expect(
      inked(picture, { left: MARGIN, top: MARGIN, width: width - 2 * MARGIN, height: 40 }),
    ).toBeGreaterThan(0);
  }
  return sheets;
}

// Rendering a sheet takes seconds on a slow machine.
describe.each(PAPERS)('on $format', { timeout: 90_000 }, (paper) => {
  it('a bill of forty lines prints each once, and the total once, at the end', async () => {
    const sheets = await print(`/bill/${tickets.many}`, /^Bill 1$/, paper);
    expect(sheets.length).toBeGreaterThan(1);
    const words = wordsOf(sheets);
    for (const { label } of many) expect(times(words, plain(label)), label).toBe(1);
    // 40 × $1,234.56 and 0 + 1 + … + 39 cents = 780: $49,382.40 + $7.80 = $49,390.20; 6 % of it $2,963.412 → $2,963.41.
    expect(words).toContain('$49,390.20');
    expect(words).toContain('$2,963.41');
    expect(times(words, 'Total$52,353.61')).toBe(1);
    expect(sheets.at(-1)?.words).toContain('Total');
    // The table head is on every page.
    for (const sheet of sheets) expect(sheet.words).toContain('Item');
    for (const said of [LONG_SHOP, LONG_HUNTER, tickets.many, 'Bill 1']) expect(words).toContain(plain(said));
    expect(words).not.toContain(plain('Print bill'));
  });

  it('a bill without lines is one page with a total of zero', async () => {
    const sheets = await print(`/bill/${tickets.none}`, /^Bill 2$/, paper);
    expect(sheets).toHaveLength(1);
    expect(wordsOf(sheets)).toContain('Total$0.00');
  });

  it('a quote of forty lines prints each, the range, and its last day', async () => {
    const sheets = await print(`/quote/${quotes.many}/paper`, /^Quote .*-0001$/, paper);
    const words = wordsOf(sheets);
    for (const { label } of many) expect(times(words, plain(label)), label).toBe(1);
    expect(times(words, 'Total$52,353.61')).toBe(1);
    for (const said of [LONG_SHOP, LONG_HUNTER, 'Good until', 'Take-home meat', 'The final weights decide.'])
      expect(words).toContain(plain(said));
    expect(words).not.toContain(plain('Print the quote'));
  });

  it('a quote without prices is one page of predicted products', async () => {
    const sheets = await print(`/quote/${quotes.none}/paper`, /^Quote .*-0002$/, paper);
    expect(sheets).toHaveLength(1);
    expect(wordsOf(sheets)).not.toContain('$');
    expect(wordsOf(sheets)).toContain(plain('Take-home meat'));
  });
});

it('raised no console errors', () => expect(shop.complaints).toEqual([]));

/** The record book for an officer: missing data is found and corrected, and the book is printed and exported. */
import { readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inked, pngOf, printed, PT_PER_MM } from './paper.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

/** Millimeters, landscape. */
const PAPERS = [
  { format: 'A4', width: 297, height: 210 },
  { format: 'Letter', width: 279.4, height: 215.9 },
] as const;
const MARGIN = 11;
const ANIMALS = 30;
const LONG_NAME =
  'Maximiliane-Theodora Wolfeschlegelsteinhausenbergerdorff von und zu Hohenlohe-Langenburg the Younger';
const LONG_WORD = 'Sommerwurstundlandjägermitwacholderbeerenundkümmel'.repeat(2);
const KEEP = process.env.KEEP_PICTURES;

let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
  const today = (await shop.call('shop.get', {})).today;
  const whole = { tag: 'MD-1', killDate: today, killArea: 'Unit 23' };
  const hunter = (name: string) => ({
    name,
    address: '4 Mill Lane, Elk Fork',
    licence: 'H-77',
    phone: '307-555-0100',
  });
  await deerAtDesk(shop, '', {}, { ...whole, hunter: hunter('Dana Whitlock'), tag: '', killArea: '' });
  await deerAtDesk(shop, '', {}, {
    ...whole,
    hunter: { ...hunter(LONG_NAME), address: `1 ${'Very Long Road, '.repeat(12)}${LONG_WORD}` },
    deliverer: { name: LONG_WORD, address: '' },
  }); // prettier-ignore
  await deerAtDesk(
    shop,
    '',
    {},
    { ...whole, hunter: hunter('=HYPERLINK("http://x.example","Bo")'), tag: '+1-A' },
  );
  const long = new Date(Date.parse(`${today}T12:00:00Z`) - 9 * 86_400_000).toISOString().slice(0, 10);
  await deerAtDesk(shop, '', {}, { ...whole, hunter: hunter('Al Späth'), killDate: null, receivedOn: long });
  for (let i = 4; i < ANIMALS; i++)
    await deerAtDesk(shop, '', {}, { ...whole, hunter: hunter(`Hunter ${i}`) });
  await shop.page.evaluate(axe.source);
}, 120_000);
afterAll(() => shop?.close());

const go = async (place: string): Promise<void> => {
  await shop.page.evaluate((hash) => (location.hash = hash), `#${place}`);
  await shop.page.waitForURL((url) => url.hash.startsWith(`#${place}`));
};
const plain = (text: string): string => text.replace(/\s+/g, '');

describe('the record book', { timeout: 90_000 }, () => {
  it('lists incomplete and late entries first, and reports that no ticket number is missing', async () => {
    await go('/books');
    const { page } = shop;
    await page.getByText('2 incomplete entries, 1 entered late').waitFor();
    expect(await page.getByText(/No ticket number is missing/).innerText()).toMatch(/-0001 to .*-0030\./);
    const first = page.locator('main').getByRole('listitem').filter({ hasText: 'Dana Whitlock' });
    expect(await first.innerText()).toContain('tag or permit, kill area');
    await page.getByRole('button', { name: 'Show the one entered late' }).click();
    await page.getByText('1 entry, 1 incomplete, 1 entered late').waitFor();
    await page.getByRole('cell', { name: /entered 9 days late/ }).waitFor();
    // The filter is in the address, so that going back restores it.
    expect(new URL(page.url()).hash).toContain('only=late');
    await page.getByLabel('Show', { exact: true }).selectOption('Every entry');
    await page.getByText('30 entries, 2 incomplete, 1 entered late').waitFor();
  });

  it('opens the animal for a correction by keyboard, and records the reason', async () => {
    const { page } = shop;
    const mend = page.getByRole('link', { name: /^Edit the record of .*-0001$/ });
    await mend.focus();
    await page.keyboard.press('Enter');
    const dialog = page.getByRole('dialog', { name: /Edit the record/ });
    await dialog.waitFor();
    // The first missing field has the focus.
    await page.keyboard.type('MD-1017');
    await dialog.getByLabel('Kill area').fill('Unit 40');
    const found = await page.evaluate(async () => {
      const { violations } = await (window as unknown as { axe: typeof axe }).axe.run(document, {
        preload: false,
      });
      return violations
        .filter(({ impact }) => impact === 'serious' || impact === 'critical')
        .map(({ id }) => id);
    });
    expect(found).toEqual([]);
    await page.keyboard.press('Enter');
    await dialog.getByText('This field is required.').waitFor();
    await dialog.getByLabel('Reason for the change').fill('read off the carcass tag');
    await page.keyboard.press('Enter');
    await dialog.waitFor({ state: 'hidden' });
    const story = page.locator('section', { has: page.getByRole('heading', { name: 'History' }) });
    await story.getByText('Tag or permit: nothing → MD-1017').waitFor();
    await story.getByText('Kill area: nothing → Unit 40').waitFor();
    await story.getByText('Reason: read off the carcass tag').waitFor();
    await page.goBack();
    await page.getByText('30 entries, 1 incomplete, 1 entered late').waitFor();
  });

  it('assigns an animal to its right owner, found while typing', async () => {
    const { page } = shop;
    const [first, second] = (await shop.call('records.list', {})).slice(-2);
    if (!first || !second) throw new Error('The book has fewer than two entries.');
    await go(`/table/${first.ticket}?edit=1`);
    const dialog = page.getByRole('dialog', { name: /Edit the record/ });
    const owner = dialog.getByRole('combobox', { name: 'Owner', exact: true });
    await owner.fill(second.hunter);
    await dialog.getByRole('option', { name: second.hunter }).waitFor();
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Enter');
    expect(await dialog.getByLabel('Owner’s address').inputValue()).toBe(second.address);
    await dialog.getByLabel('Reason for the change').fill('the two were mixed up');
    await page.keyboard.press('Enter');
    await dialog.waitFor({ state: 'hidden' });
    await page.getByText(`Owner: ${first.hunter} → ${second.hunter}`).waitFor();
    await go('/books');
    await page.getByText('30 entries, 1 incomplete, 1 entered late').waitFor();
  });

  it.each(PAPERS)('prints on $format with every entry once and its head on every page', async (paper) => {
    const { page } = shop;
    await go('/books');
    await page.getByRole('link', { name: 'Print or save as PDF' }).click();
    await page.getByRole('article', { name: /^Record book, season/ }).waitFor();
    await page.evaluate(() => document.fonts.ready);
    const sheets = await printed(page, paper.format);
    expect(sheets.length).toBeGreaterThan(1);
    const words = plain(sheets.map((sheet) => sheet.words).join(''));
    for (let i = 1; i <= ANIMALS; i++) {
      const ticket = `-${String(i).padStart(4, '0')}`;
      expect(words.split(ticket).length - 1, ticket).toBe(1);
    }
    for (const said of [LONG_NAME, LONG_WORD, 'MD-1017', 'entered 9 days late', 'Missing: kill date'])
      expect(words).toContain(plain(said));
    for (const [at, sheet] of sheets.entries()) {
      expect(Math.abs(sheet.width - paper.width * PT_PER_MM)).toBeLessThan(1);
      expect(Math.abs(sheet.height - paper.height * PT_PER_MM)).toBeLessThan(1);
      expect(sheet.words).toContain('Cold Creek Locker');
      expect(sheet.words).toContain('License, tag');
      expect(plain(sheet.words)).toContain(plain(`Page ${at + 1} of ${sheets.length}`));
      const picture = await sheet.picture();
      if (KEEP) writeFileSync(join(tmpdir(), `record-book-${paper.format}-${at + 1}.png`), pngOf(picture));
      const { width, height } = paper;
      const edges = [
        { left: 0, top: 0, width: MARGIN, height },
        { left: width - MARGIN, top: 0, width: MARGIN, height },
        { left: 0, top: 0, width, height: MARGIN },
      ];
      expect(edges.map((edge) => inked(picture, edge))).toEqual([0, 0, 0]);
    }
    // A split row would separate an owner from the phone number.
    for (const sheet of sheets)
      expect(sheet.words.split('307-555-0100').length).toBe(
        sheet.words.split(/(?<![\d-])\d\d-\d{4}(?!\d)/).length,
      );
    expect(words).not.toContain(plain('To save a PDF'));
  });

  it('is exported as a table without formulas', async () => {
    const { page } = shop;
    await go('/books');
    const saving = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save as table (CSV)' }).click();
    const file = await (await saving).path();
    const table = readFileSync(file, 'utf8');
    expect(table.startsWith('\uFEFFTicket,Owner’s name,')).toBe(true);
    const lines = table.trimEnd().split('\r\n');
    expect(lines).toHaveLength(ANIMALS + 1);
    expect(lines[1]).toContain('MD-1017');
    expect(lines[3]).toContain(`"'=HYPERLINK(""http://x.example"",""Bo"")"`);
    expect(lines[3]).toContain(`,'+1-A,`);
    expect(lines[4]).toContain('Al Späth');
    expect(lines[4]?.endsWith(',kill date')).toBe(true);
  });

  it('raised no console errors', () => expect(shop.complaints).toEqual([]));
});

/** Imports a logger's file and prints the record for an inspector. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { printed, PT_PER_MM } from './paper.ts';
import { openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let coolerId: number;
beforeAll(async () => {
  shop = await openShop();
  coolerId = (await shop.call('coolers.save', { name: 'Cold room 1', places: 20 })).id;
});
afterAll(() => shop?.close());

it('previews a logger’s file, imports it once, and prints the record', async () => {
  const { page } = shop;
  const day = new Date(Date.now() - 2 * 86_400_000).toISOString().slice(0, 10);
  const text = `Date,Time,Temp (°F)\n${day},06:00,36.0\n${day},08:00,38.0\n${day},10:00,44.0\n`;
  const file = { name: 'logger.csv', mimeType: 'text/csv', buffer: Buffer.from(text) };
  await page.evaluate((to) => (location.hash = `#/cooler/${to}`), coolerId);
  const choose = page.getByLabel('File', { exact: true });
  await choose.setInputFiles(file);
  await page.getByText('logger.csv: 3 new readings.').waitFor();
  expect((await shop.call('coolers.list', {}))[0]?.last).toBeNull();
  await page.getByRole('button', { name: 'Import 3 readings' }).click();
  await page.getByText(/3 readings\. The limit is 40°F\. It was above the limit for/).waitFor();
  await choose.setInputFiles(file);
  await page.getByText('logger.csv: 0 new readings, 3 already in the book.').waitFor();
  expect(await page.getByRole('button', { name: /^Import \d/ }).count()).toBe(0);

  const papers = [['A4', 210, 297], ['Letter', 215.9, 279.4]] as const; // prettier-ignore
  for (const [format, width, height] of papers) {
    const sheets = await printed(page, format);
    expect(sheets.length, format).toBeLessThanOrEqual(2);
    expect(sheets[0]?.width).toBeCloseTo(width * PT_PER_MM, -0.5);
    expect(sheets[0]?.height).toBeCloseTo(height * PT_PER_MM, -0.5);
    const words = sheets.map((sheet) => sheet.words).join(' ');
    for (const word of [
      'Cold Creek Locker',
      'Cold room 1',
      'Day by day',
      'Gaps between readings',
      'logger.csv',
      '44°F',
    ])
      expect(words, `${format}: ${word}`).toContain(word);
    expect(words).not.toContain('Import logger');
  }
  await page.getByRole('button', { name: 'Void logger.csv' }).click();
  await page.getByText('There are no readings for these days.').waitFor();
  expect(shop.complaints).toEqual([]);
});

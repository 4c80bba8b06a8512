/** Imports an old season from a messy spreadsheet, exports it, and imports it again. */
import axe from 'axe-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readingOf } from './keys.ts';
import { openShop, type ShopWindow } from './shop-window.ts';

/**
 * Saved by a spreadsheet on Windows: its encoding, semicolons, decimal commas, a title, a word of its own, a typing
 * error.
 */
const messy = (hanging: string): Buffer =>
  Buffer.from(
    [
      'Season 2023, kept by Jürgen;;;;;;',
      ';;;;;;',
      'Ticket #;Date in;Customer;Animal;Hanging wt (lb);Take home;Notes',
      '17;11/4/2023;Jürgen Weiß;Muley;84,5;44,25;"shoulder; shot"',
      '18;11/13/2023;Dana Whitlock;Hirsch;212,0;118;=1+1',
      `19;11/14/2023;Dana Whitlock;elk;${hanging};109;`,
    ].join('\r\n'),
    'latin1',
  );

let shop: ShopWindow;
beforeAll(async () => {
  shop = await openShop();
  await shop.page.evaluate(() => (location.hash = '#/books?tab=files'));
  await shop.page.getByRole('heading', { name: 'Import', exact: true }).waitFor();
}, 120_000);
afterAll(async () => {
  await shop?.close();
});

const choose = (hanging: string) =>
  shop.page
    .getByLabel('File (CSV)')
    .setInputFiles({ name: 'season 2023.csv', mimeType: 'text/csv', buffer: messy(hanging) });

describe('an old season', () => {
  it('is parsed by its headings, and every problem is listed with its row', async () => {
    const { page } = shop;
    await choose('two hundred');
    await page.getByText('season 2023.csv: 3 rows').waitFor();
    await page.getByLabel('Came in as, on every row').selectOption({ label: 'Skinned' });
    await page.locator('strong', { hasText: '2 problems to fix first' }).waitFor();
    const told = await readingOf(page);
    expect(told).toContain('5 Species “Hirsch” is not recognized. Pick what it means above.');
    expect(told).toContain('6 Hanging weight “two hundred” is not a weight.');
    expect(told).toContain('Jürgen Weiß');
    expect(told).toContain('Nov 4, 2023');
    expect(await page.getByRole('button', { name: /^Import 3/ }).count()).toBe(0);
  });

  it('is imported completely once corrected, by keyboard', async () => {
    const { page, keys } = shop;
    await choose('198,5');
    await page.getByLabel('Came in as, on every row').selectOption({ label: 'Skinned' });
    await page.getByLabel('Species: “Hirsch” (1 row) means').selectOption({ label: 'Elk' });
    await page.getByText('Every row can be read.').waitFor();
    await keys.pressOn('Import 3 animals');
    await page.getByText('season 2023.csv is imported.').waitFor();
    const records = await shop.call('records.list', { season: 2023 });
    expect(records.map(({ ticket, hunter, speciesName }) => [ticket, hunter, speciesName])).toEqual([
      ['23-0001', 'Jürgen Weiß', 'Mule deer'],
      ['23-0002', 'Dana Whitlock', 'Elk'],
      ['23-0003', 'Dana Whitlock', 'Elk'],
    ]);
    expect(
      (await shop.call('season.yields', { season: 2023 })).species.map(({ name, spread }) => [
        name,
        spread?.n,
      ]),
    ).toEqual([
      ['Elk', 2],
      ['Mule deer', 1],
    ]);
  });

  it('is undone by one press, and imported again with the choices remembered', async () => {
    const { page, keys } = shop;
    await keys.pressOn('Undo season 2023.csv');
    await page.getByText('Import of season 2023.csv undone.').waitFor();
    expect(await shop.call('records.list', { season: 2023 })).toEqual([]);
    expect(await shop.call('hunters.find', { text: '' })).toEqual([]);
    await choose('198,5');
    await page.getByText('Every row can be read.').waitFor();
    await keys.pressOn('Import 3 animals');
    await page.getByText('season 2023.csv is imported.').waitFor();
    expect((await shop.call('records.list', { season: 2023 })).map(({ ticket }) => ticket)).toEqual([
      '23-0001', '23-0002', '23-0003',
    ]); // prettier-ignore
  });

  it('is exported as tables and as a whole book', async () => {
    const { page } = shop;
    for (const [button, name] of [
      ['Tables for a spreadsheet (.zip)', /^book-.*\.zip$/],
      ['The whole book as text (.json)', /^book-.*\.json$/],
    ] as const) {
      const [download] = await Promise.all([
        page.waitForEvent('download'),
        page.getByRole('button', { name: button }).click(),
      ]);
      expect(download.suggestedFilename()).toMatch(name);
    }
  });

  it('is accessible, without console errors', async () => {
    await choose('198,5');
    await shop.page.getByText('This file was imported before').waitFor();
    await shop.page.evaluate(axe.source);
    const found = await shop.page.evaluate(async () => {
      const { violations } = await (window as unknown as { axe: typeof axe }).axe.run('main');
      return violations.map(
        ({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 120)).join(' | ')}`,
      );
    });
    expect(found).toEqual([]);
    expect(shop.complaints).toEqual([]);
  });
});

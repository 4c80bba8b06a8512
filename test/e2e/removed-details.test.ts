/** Restoring a backup from before personal details were removed: the dialog warns that it brings them back. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { guardedDesk } from '../desk/guarded-desk.ts';
import { openBrowser } from './browser.ts';
import { serve, type Served } from './served.ts';

const folder = mkdtempSync(join(tmpdir(), 'gambrel-removed-'));
const WARNING = /from before personal details were removed.*brings those details back/;
let served: Served;
let browser: Browser;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  rmSync(folder, { recursive: true, force: true });
});

it('warns at the older backup, but not at one made since', async () => {
  const bookPath = join(folder, 'shop.gambrel');
  const shop = await guardedDesk(bookPath, new Date(Date.now() - 7_200_000).toISOString());
  await shop.call('shop.setUp', { shopName: 'Cold Creek Locker', unit: 'lb' });
  const { id } = await shop.call('hunters.save', { name: 'Bo Rask', phone: '555-0100' });
  await shop.call('shop.backUp', {});
  shop.wait(3600);
  await shop.call('hunters.removeDetails', { id, reason: 'asked by letter' });
  shop.wait(60);
  await shop.call('shop.backUp', {});
  shop.desk.close({ backUp: false });
  served = await serve('--book', bookPath);
  const page = await (
    await browser.newContext({ viewport: { width: 1366, height: 768 }, locale: 'en-US' })
  ).newPage();
  page.setDefaultTimeout(15_000);
  await page.goto(await served.newAddress());
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  await page.evaluate(() => (location.hash = '#/shop'));
  const ways = page.getByRole('button', { name: /^Restore this backup/ });
  await ways.first().waitFor();
  const dialog = page.getByRole('dialog');
  await ways.last().click();
  await dialog.getByText('Checked just now and complete').waitFor();
  await dialog.getByText(WARNING).waitFor();
  const pictures = process.env.GAMBREL_PICTURES;
  for (const [width, height] of pictures
    ? ([
        [1366, 768],
        [1920, 1080],
      ] as const)
    : [])
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      await page.screenshot({ path: join(pictures ?? '', `go-back-${width}-${colorScheme}.png`) });
    }
  await page.keyboard.press('Escape');
  await dialog.waitFor({ state: 'detached' });
  await ways.first().click();
  await dialog.getByText('Checked just now and complete').waitFor();
  expect(await dialog.getByText(WARNING).count()).toBe(0);
}, 120_000);

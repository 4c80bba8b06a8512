/** The built program on a copy of the large book, a window of it in a browser, and a line to its desk. */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { launch } from '../../e2e/browser.ts';
import { deskLine } from '../../e2e/desk-line.ts';
import { OLD_SCREEN } from '../../e2e/look-at.ts';
import { serve } from '../../e2e/served.ts';
import { largeBook } from '../large-book.ts';
import type { Line } from '../old-table.ts';
import { handOn, type Hand } from './hand.ts';
import { installWatch, type Faults } from './on-page.ts';

export interface LargeShop {
  browser: Browser;
  hand: Hand;
  call: Line;
  close(): Promise<void>;
}

export async function openLargeShop(seasons: number, slowedBy: number, faults: Faults): Promise<LargeShop> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-window-'));
  const path = join(folder, 'large.gambrel');
  copyFileSync(await largeBook(seasons), path);
  const served = await serve('--book', path);
  const browser = await launch();
  const context = await browser.newContext({
    viewport: OLD_SCREEN,
    locale: 'en-US',
    timezoneId: 'America/Denver',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  await page.addInitScript(installWatch, faults);
  const call = await deskLine(await served.newAddress());
  await page.goto(await served.newAddress());
  await page.locator('h1').first().waitFor();
  return {
    browser,
    hand: await handOn(page, slowedBy),
    call,
    async close() {
      await browser.close();
      // Without the backup that closing makes.
      await served.end('SIGKILL');
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

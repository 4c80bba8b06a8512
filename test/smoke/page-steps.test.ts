/** The steps that the smoke tests take in the program's window, taken in a browser on the demo. */
import { readFileSync } from 'node:fs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from '../e2e/browser.ts';
import { openLook, type Look } from '../e2e/look-at.ts';
import { serve, type Served } from '../e2e/served.ts';
import { faultOfRecords, planFat, saveRecords } from './page-steps.ts';

let served: Served;
let browser: Browser;
let look: Look;

beforeAll(async () => {
  served = await serve('--demo');
  browser = await openBrowser();
  look = await openLook(browser, await served.newAddress());
}, 120_000);
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
});

it('a plan is solved', async () => {
  await planFat(look.page);
  expect(await look.page.getByRole('list', { name: 'Weigh out' }).innerText()).toMatch(/lb/);
});

it('the record book is saved as a table', async () => {
  const saving = look.page.waitForEvent('download');
  await saveRecords(look.page);
  const table = readFileSync(await (await saving).path(), 'utf8');
  expect(faultOfRecords(table)).toBe('');
  expect(faultOfRecords(table.slice(1))).toMatch(/^It begins with "Ticket/);
  expect(faultOfRecords(table.split('\r\n').slice(0, 5).join('\r\n'))).toBe('It has 4 rows');
  expect(look.complaints).toEqual([]);
});

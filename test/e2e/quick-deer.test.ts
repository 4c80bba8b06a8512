/** A deer weighed quickly, by keyboard, from ticket to freezer; and a half-typed weight that survives a look elsewhere. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { openBrowser } from './browser.ts';
import { keysOf, type Keys } from './keys.ts';
import { serve, type Served } from './served.ts';

const folder = mkdtempSync(join(tmpdir(), 'gambrel-quick-'));
let served: Served;
let browser: Browser;
let page: Page;
let keys: Keys;

beforeAll(async () => {
  served = await serve('--book', join(folder, 'shop.gambrel'));
  browser = await openBrowser();
  page = await (
    await browser.newContext({ viewport: { width: 1366, height: 768 }, locale: 'en-US' })
  ).newPage();
  page.setDefaultTimeout(15_000);
  keys = keysOf(page);
  await page.goto(served.address);
  await keys.pressOn('Start an empty book');
  await keys.fill('Name of the shop', 'Cold Creek Locker');
  await keys.press('Enter');
  await page.getByText('The rail is empty').waitFor();
  await keys.goTo('intake', 2);
  await keys.fill('Name or phone number', 'Ana Reyes');
  await keys.choose('Species', 'White-tailed deer');
  await keys.choose('Sex', 'Doe');
  await keys.choose('Brought as', 'Skinned');
  await keys.press('Control+Enter');
  await keys.pressOn('To the table with it');
  await keys.pressOn('Weigh quickly instead');
});
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  rmSync(folder, { recursive: true, force: true });
});

const entry = (name: string) => page.getByRole('textbox', { name, exact: true });

it('keeps a half-typed weight while one looks at the rail', async () => {
  await entry('Hanging weight').waitFor();
  await keys.type('84');
  const table = new URL(page.url()).hash;
  await page.keyboard.press('Alt+1');
  await page.waitForURL((url) => url.hash === '#/rail');
  await page.evaluate((hash) => (location.hash = hash), table);
  await entry('Hanging weight').waitFor();
  expect(await entry('Hanging weight').inputValue()).toBe('84');
});

it('is ready after the hanging weight, two weights of packages and one key', async () => {
  // 1: the hanging weight, which stands there already.
  await keys.press('Enter');
  // 2: steaks and roasts, counted from their weight.
  await entry('Steaks and roasts').waitFor();
  await keys.type('18.2');
  await page.waitForFunction(() => {
    const fields = [...document.querySelectorAll('input')];
    return fields.some((field) => field.inputMode === 'numeric' && field.value === '18');
  });
  await keys.press('Enter');
  // 3: what was ground.
  await entry('Ground').waitFor();
  await keys.type('24');
  await keys.press('Enter');
  await page.getByText(/Kept 24\.00 lb ground/).waitFor();
  // 4: done.
  await page.getByRole('button', { name: 'Packed, ready to fetch' }).first().waitFor();
  await keys.press('r');
  await page.getByRole('button', { name: 'Back to packing' }).waitFor();
  await page.getByText(/18 packages Steaks and roasts/).waitFor();
  await page.getByText(/24 packages Ground/).waitFor();
});

/** A book that does not open: the message, and how to recover. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import Database from 'better-sqlite3';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { guardedDesk } from '../desk/guarded-desk.ts';
import { openBrowser } from './browser.ts';
import { serve, type Served } from './served.ts';

const folder = mkdtempSync(join(tmpdir(), 'gambrel-no-book-'));
const bookPath = join(folder, 'shop.gambrel');
let served: Served;
let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  rmSync(folder, { recursive: true, force: true });
});

async function openWindow(...words: string[]): Promise<void> {
  served = await serve(...words);
  page = await (
    await browser.newContext({ viewport: { width: 1366, height: 768 }, locale: 'en-US' })
  ).newPage();
  page.setDefaultTimeout(15_000);
  await page.goto(await served.newAddress());
}

it('reports a damaged book, restores its backup by keyboard, and continues', async () => {
  const shop = await guardedDesk(bookPath);
  await shop.call('shop.setUp', { shopName: 'Cold Creek Locker', unit: 'lb' });
  await shop.call('intake.takeIn', {
    hunter: { name: 'Dana Whitlock' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
    weights: [{ stage: 'hanging', typed: '400' }],
  }); // prettier-ignore
  shop.desk.close();
  const bytes = readFileSync(bookPath);
  writeFileSync(bookPath, bytes.fill(0xa5, 8192, 60_000));
  await openWindow('--book', bookPath);
  await page.getByText('Nothing in it was changed').waitFor();
  await page.evaluate(axe.source);
  const { violations } = await page.evaluate(() =>
    (window as unknown as { axe: typeof axe }).axe.run(document, { resultTypes: ['violations'] }),
  );
  expect(violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`)).toEqual([]);
  await page.getByRole('button', { name: /^Restore this backup/ }).press('Enter');
  await page.getByText('complete: 1 animal, 1 weight, 0 payments.').waitFor();
  await page.getByRole('button', { name: 'Restore', exact: true }).press('Enter');
  await page.getByText('The book is now as it was').waitFor();
  await page.getByRole('navigation', { name: 'Places' }).waitFor();
  await page.getByText('0001').first().waitFor();
}, 90_000);

it('asks before creating a named book that is missing', async () => {
  await served.end('SIGINT');
  const away = join(folder, 'stick', 'shop.gambrel');
  await openWindow(`--book=${away}`);
  await page.getByText(`There is no book at ${away}.`).waitFor();
  await page.getByRole('button', { name: 'Try again' }).press('Enter');
  await page.getByText('There is no book at').waitFor();
  expect(existsSync(join(folder, 'stick'))).toBe(false);
  await page.getByRole('button', { name: 'Start a new, empty book' }).press('Enter');
  await page.getByText('Your own book').first().waitFor();
  expect(existsSync(away)).toBe(true);
}, 90_000);

it('names what another program added to the book, and continues in a clean one with all records', async () => {
  await served.end('SIGINT');
  const path = join(folder, 'altered', 'shop.gambrel');
  const shop = await guardedDesk(path);
  await shop.call('shop.setUp', { shopName: 'Cold Creek Locker', unit: 'lb' });
  await shop.call('hunters.save', { name: 'Dana Whitlock' });
  shop.desk.close();
  const other = new Database(path);
  other.exec('CREATE TRIGGER spy AFTER INSERT ON payment BEGIN SELECT 1; END');
  other.close();
  rmSync(join(folder, 'altered', 'shop backups', 'last closed.sha256'));
  await openWindow('--book', path);
  await page.getByText('“spy” (trigger) was added').waitFor();
  await page.getByRole('button', { name: 'Move records to a clean book' }).press('Enter');
  await page.getByText('The records are now in a clean book.').waitFor();
  await page.getByRole('navigation', { name: 'Places' }).waitFor();
  expect(await page.getByRole('heading', { level: 1 }).innerText()).toContain('Cold Creek Locker');
}, 90_000);

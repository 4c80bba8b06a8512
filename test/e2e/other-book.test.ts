/** State of one book never reaches another: the demo's undo and half-typed weights never affect the shop. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { copyDemo } from '../../src/demo/copy.ts';
import { leaveDemo } from './frame.ts';
import { openBrowser } from './browser.ts';
import { deskLine } from './desk-line.ts';
import { keysOf, type Keys } from './keys.ts';
import { serve, type Served } from './served.ts';

const folder = mkdtempSync(join(tmpdir(), 'gambrel-other-book-'));
const complaints: string[] = [];
let served: Served;
let browser: Browser;
let call: Awaited<ReturnType<typeof deskLine>>;
let first: { page: Page; keys: Keys };
let second: { page: Page; keys: Keys };
/**
 * An animal that both books have, on a hook, with a weight in the shop's book; the demo's next weight gets the same
 * id.
 */
let ticket: string;
let ours: number;

beforeAll(async () => {
  // The shop's book starts as a copy of the demo, so that both have the same tickets and ids.
  const book = join(folder, 'shop.gambrel');
  await copyDemo(book, join(import.meta.dirname, '../../out/main/demo.gambrel'));
  [served, browser] = await Promise.all([serve('--book', book), openBrowser()]);
  call = await deskLine(await served.newAddress());
  const { hooks } = await call('rail.get', {});
  ticket = hooks.find(({ stage }) => stage === 'hanging')?.ticket ?? '';
  const { id } = await call('animals.get', { ticket });
  const kept = await call('table.weigh', {
    animalId: id,
    stage: 'cut',
    part: 'trim',
    typed: '6.66',
    confirmed: true,
  });
  ours = kept.weighingId;
  [first, second] = [await windowOn(), await windowOn()];
}, 120_000);
beforeEach(({ onTestFailed, task }) =>
  onTestFailed(async () => {
    for (const [number, { page }] of [first, second].entries()) {
      const picture = join(tmpdir(), `gambrel-${number}-${task.name.slice(0, 30).replace(/\W+/g, '-')}.png`);
      await page.screenshot({ path: picture });
      console.error(`${page.url()} looked like ${picture}; said: ${complaints.join(' | ')}`);
    }
  }),
);
afterAll(async () => {
  await browser?.close();
  await served?.end('SIGINT');
  rmSync(folder, { recursive: true, force: true });
});

async function windowOn(): Promise<{ page: Page; keys: Keys }> {
  const context = await browser.newContext({
    viewport: { width: 1366, height: 768 },
    locale: 'en-US',
    timezoneId: 'America/Denver',
  });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(await served.newAddress());
  await page.getByRole('heading', { level: 1 }).first().waitFor();
  return { page, keys: keysOf(page) };
}

const entry = (page: Page) => page.locator('main input[inputmode="decimal"]').first();
const demo = (page: Page) => page.getByRole('complementary', { name: 'Demo season' });
async function atTable(page: Page): Promise<void> {
  await page.evaluate((hash) => (location.hash = hash), `#/table/${ticket}`);
  await entry(page).waitFor();
}
async function weigh({ page, keys }: { page: Page; keys: Keys }, typed: string): Promise<void> {
  await keys.tabTo(entry(page));
  await keys.press('t');
  await keys.type(typed);
  await keys.press('Enter');
}
const weighings = async () => (await call('animals.get', { ticket })).weighings;

describe('a window that changes books', () => {
  it('does not void the shop’s weight when the demo’s is undone after leaving the demo', async () => {
    const { page, keys } = first;
    await call('shop.openDemo', {});
    await demo(page).waitFor({ timeout: 60_000 });
    await atTable(page);
    await weigh(first, '5.55');
    await page.getByText('Saved 5.55 lb').waitFor();
    expect(Math.max(...(await weighings()).map(({ id }) => id))).toBe(ours);
    await leaveDemo(keys);
    await demo(page).waitFor({ state: 'detached' });
    await keys.press('Control+z');
    await page.waitForTimeout(700);
    expect((await weighings()).find(({ id }) => id === ours)).toMatchObject({ typed: '6.66', voided: null });
    expect(await page.getByRole('button', { name: 'Undo' }).count()).toBe(0);
    expect(await page.getByText('left in another window').count()).toBe(0);
  }, 90_000);

  it('shows the demo in every window, with a notice in those that did not open it', async () => {
    await atTable(first.page);
    await first.keys.tabTo(entry(first.page));
    await first.keys.type('17.3');
    await call('shop.openDemo', {});
    for (const { page } of [first, second]) {
      await demo(page).waitFor();
      await page.getByText('The demo was opened in another window').waitFor();
      await page.waitForURL((url) => url.hash === '#/rail');
    }
    // The same ticket is another animal here: the shop's half-typed weight is gone.
    await atTable(first.page);
    expect(await entry(first.page).inputValue()).toBe('');
  });

  it('notifies the other window, which starts over', async () => {
    const { page } = second;
    await leaveDemo(first.keys);
    await demo(page).waitFor({ state: 'detached' });
    await page.getByText('The demo was closed in another window').waitFor();
    await page.waitForURL((url) => url.hash === '#/rail');
  });

  it('rejects calls for the previous book from a window that was not notified', async () => {
    const { page } = second;
    await atTable(page);
    // A hidden window has no connection to the desk; here it is not notified that it becomes visible.
    await page.evaluate(() => {
      Object.defineProperty(document, 'hidden', { value: true });
      document.dispatchEvent(new Event('visibilitychange'));
    });
    await call('shop.openDemo', {});
    await weigh(second, '9.9');
    await page.getByText('The demo was opened in another window').waitFor();
    expect((await weighings()).some(({ typed }) => typed === '9.9')).toBe(false);
    await call('shop.leaveDemo', {});
    expect((await weighings()).some(({ typed }) => typed === '9.9')).toBe(false);
  }, 60_000);

  it('raises no console errors', () => expect(complaints).toEqual([]));
});

/** A shop with a new book in a real browser, and a connection to its desk to prepare the test. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import type { CallInput } from '../../src/bridge/contract.ts';
import type { Language } from '../../src/words/languages.ts';
import { openBrowser } from './browser.ts';
import { deskLine } from './desk-line.ts';
import { keysOf, type Keys } from './keys.ts';
import { serve, type Served } from './served.ts';

const SIZE = { width: 1366, height: 768 };

export interface ShopWindow {
  page: Page;
  keys: Keys;
  /** Calls the desk directly. */
  call: Awaited<ReturnType<typeof deskLine>>;
  /** Console errors and warnings; must stay empty. */
  complaints: string[];
  bookPath: string;
  /** Another window on the same book, in a language of its own. */
  another(language?: Language): Promise<{ page: Page; keys: Keys }>;
  /** Saves a screenshot and the window's text, for a failed step. */
  tellOf(step: string): Promise<void>;
  close(): Promise<void>;
}

/** Starts the program on a new book of a shop that uses pounds, and opens its window at `place`. */
export async function openShop(paceMs = 0): Promise<ShopWindow> {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-shop-'));
  const bookPath = join(folder, 'shop.gambrel');
  const complaints: string[] = [];
  const served: Served = await serve('--book', bookPath);
  const browser: Browser = await openBrowser();
  const call = await deskLine(await served.newAddress());
  await call('shop.setUp', { shopName: 'Cold Creek Locker', unit: 'lb' });
  const context: BrowserContext = await browser.newContext({
    viewport: SIZE,
    locale: 'en-US',
    timezoneId: 'America/Denver',
  });

  async function another(language?: Language): Promise<{ page: Page; keys: Keys }> {
    const page = await context.newPage();
    page.setDefaultTimeout(15_000);
    page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()));
    page.on('pageerror', (error) => complaints.push(error.message));
    const address = await served.newAddress();
    await page.goto(language ? address.replace('/#', `/?language=${language}#`) : address);
    await page.getByRole('heading', { level: 1 }).first().waitFor();
    return { page, keys: keysOf(page, paceMs) };
  }
  const first = await another();
  return {
    ...first,
    call,
    complaints,
    bookPath,
    another,
    async tellOf(step) {
      const picture = join(tmpdir(), `gambrel-${step.slice(0, 40).replace(/\W+/g, '-')}.png`);
      await first.page.screenshot({ path: picture });
      console.error(`${first.page.url()} looked like ${picture}; the window said: ${complaints.join(' | ')}`);
    },
    async close() {
      await browser.close();
      await served.end('SIGINT');
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Receives a skinned deer through the desk, with its hanging weight and, if given, parts weighed at the Table. */
export async function deerAtDesk(
  { call }: Pick<ShopWindow, 'call'>,
  hunter: string,
  parts: Readonly<Record<string, string>> = {},
  more: Partial<CallInput<'intake.takeIn'>> = {},
): Promise<{ id: number; ticket: string }> {
  const taken = await call('intake.takeIn', {
    hunter: { name: hunter, phone: '307-555-0100' },
    species: 'mule-deer',
    sex: 'male',
    age: 'adult',
    brought: 'skinned',
    weights: [{ stage: 'received', typed: '80' }],
    ...more,
  });
  for (const [part, typed] of Object.entries(parts))
    await call('table.weigh', { animalId: taken.id, stage: 'cut', part: part as 'trim', typed });
  return taken;
}

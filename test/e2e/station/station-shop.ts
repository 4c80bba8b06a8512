/** A shop with stations switched on, in the built program, and a device that trusts it. */
import { createHash, X509Certificate } from 'node:crypto';
import type { BrowserContext, BrowserContextOptions, Page } from 'playwright-core';
import { expect } from 'vitest';
import type { Place } from '../../../src/trade/place.ts';
import type { Language } from '../../../src/words/languages.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { freePort } from '../../bridge/stations/open-line.ts';
import { signerBeside } from '../../torture/line/running-desk.ts';
import { launchProfile, openBrowser } from '../browser.ts';
import { deskLine } from '../desk-line.ts';
import { serve, type Served } from '../served.ts';

const ADDRESS = '127.0.0.1';

export type ShopCall = Awaited<ReturnType<typeof deskLine>>;

export interface StationShop {
  /** A call of the shop's own window. */
  call: ShopCall;
  origin: string;
  bookPath: string;
  /** A window of the shop's own computer. */
  office(): Promise<Page>;
  /** Ends the desk as a power cut does. */
  kill(): Promise<void>;
  /** Starts it again with the same book. */
  start(): Promise<void>;
  end(): Promise<void>;
  /** Opens the browser of a device; the same name is the same device. */
  device(name: string, options?: BrowserContextOptions, args?: readonly string[]): Promise<BrowserContext>;
}

export async function openStationShop(pins = false): Promise<StationShop> {
  const bookPath = tempBookPath();
  const port = await freePort();
  const profiles = new Map<string, string>();
  const open = new Set<BrowserContext>();
  let program: Served;
  const shop: StationShop = {
    call: undefined as unknown as ShopCall,
    origin: `https://${ADDRESS}:${port}`,
    bookPath,
    async office() {
      const browser = await openBrowser();
      const context = await browser.newContext({ viewport: { width: 1366, height: 768 }, locale: 'en-US' });
      open.add(context);
      context.once('close', () => open.delete(context));
      const page = await context.newPage();
      page.setDefaultTimeout(15_000);
      await page.goto(await program.newAddress());
      await page.getByRole('heading', { level: 1 }).first().waitFor();
      return page;
    },
    kill: () => program.end('SIGKILL'),
    async start() {
      program = await serve('--book', bookPath);
      shop.call = await deskLine(await program.newAddress());
    },
    async end() {
      await Promise.all([...open].map((context) => context.close()));
      await program.end('SIGKILL');
    },
    async device(name, options = {}, args = []) {
      const folder = profiles.get(name) ?? tempBookPath(name);
      profiles.set(name, folder);
      const context = await launchProfile(folder, [...trust(signerBeside(bookPath)), ...args], {
        viewport: { width: 810, height: 1080 },
        locale: 'en-US',
        reducedMotion: 'reduce',
        ...options,
      });
      open.add(context);
      context.once('close', () => open.delete(context));
      return context;
    },
  };
  await shop.start();
  await shop.call('shop.setUp', { shopName: 'Oak Ridge', unit: 'lb' });
  await shop.call('shop.addStaff', { initials: 'MK', name: 'Mara Kline' });
  await shop.call('stations.setUp', { on: true, address: ADDRESS, port, pins, by: 'MK' });
  await listening(shop);
  return shop;
}

/** Resolves when stations can reach the desk. */
export async function listening({ call }: StationShop): Promise<void> {
  for (let tries = 0; tries < 200; tries += 1) {
    const { line } = await call('stations.get', {});
    if (line.state === 'open') return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error('The line for stations did not open.');
}

/** What a browser takes to trust certificates of this signer, without changing what the system trusts. */
export function trust(signer: string): string[] {
  const key = new X509Certificate(signer).publicKey.export({ type: 'spki', format: 'der' });
  const digest = createHash('sha256').update(key).digest('base64');
  return [`--ignore-certificate-errors-spki-list=${digest}`, '--no-proxy-server'];
}

/** Pairs a device as its owner and the one who holds it would: the number is compared on both screens. */
export async function pairStation(
  shop: StationShop,
  page: Page,
  name: string,
  place: Place,
  language: Language = 'en-US',
): Promise<number> {
  const { code } = await shop.call('stations.newCode', {});
  if (!page.url().startsWith(shop.origin)) await page.goto(`${shop.origin}/`);
  await page.getByLabel('Code', { exact: true }).fill(code?.code.toLowerCase() ?? '');
  await page.getByRole('button', { name: 'Connect' }).click();
  const number = await page.getByRole('status').textContent();
  const [asked] = (await shop.call('stations.get', {})).requests;
  expect(number).toBe(asked?.number);
  const { id } = await shop.call('stations.allow', {
    request: asked?.request ?? '',
    name,
    place,
    language,
    by: 'MK',
  });
  await page.locator('h1', { hasText: name }).waitFor(); // behind the question who works here
  return id;
}

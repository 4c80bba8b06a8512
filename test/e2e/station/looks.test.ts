/** Every screen around a station's place, on a tablet upright and lying, light and dark; and people with their PINs. */
import { join } from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bringAxe, rulesIn, violations } from '../axe-check.ts';
import { saveAt } from './outbox-of.ts';
import { listening, openStationShop, pairStation, type StationShop } from './station-shop.ts';

const TABLET = [
  [810, 1080],
  [1080, 810],
] as const;
/** What a gloved finger hits, px. */
const GLOVE = 56;
/** A folder outside the repository, for pictures to look at. */
const PICTURES = process.env.STATION_PICTURES;

let shop: StationShop;
let device: BrowserContext;
let page: Page;
let stationId: number;
const faults: string[] = [];
beforeAll(async () => {
  shop = await openStationShop(true);
  await shop.call('stations.setPin', { initials: 'MK', pin: '4711', by: 'MK' });
  await shop.call('coolers.save', { name: 'Walk-in', places: 20, by: 'MK' });
  device = await shop.device('tablet');
  page = device.pages()[0] ?? (await device.newPage());
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  page.on('pageerror', (error) => faults.push(error.message));
});
afterAll(() => shop.end());

/** Fits, can be pressed in gloves, and axe finds nothing in either theme; a picture of each is kept. */
async function looksRight(name: string): Promise<void> {
  await bringAxe(page);
  for (const [width, height] of TABLET) {
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      await expect.poll(() => page.evaluate(() => document.documentElement.dataset.theme)).toBe(colorScheme);
      if (PICTURES) await page.screenshot({ path: join(PICTURES, `${name}-${width}-${colorScheme}.png`) });
      const found = await page.evaluate((least) => {
        const small = [...document.querySelectorAll<HTMLElement>('button, summary, select, input:not([type=radio])')]
          .filter((one) => one.checkVisibility({ visibilityProperty: true }))
          .filter((one) => one.getBoundingClientRect().height < least)
          .map((one) => one.outerHTML.slice(0, 120));
        return { small, tooWide: document.documentElement.scrollWidth - innerWidth };
      }, GLOVE); // prettier-ignore
      expect(found, `${name} ${width} ${colorScheme}`).toEqual({ small: [], tooWide: 0 });
      if (width === TABLET[0]?.[0])
        expect(await violations(page, rulesIn(colorScheme)), `${name} ${colorScheme}`).toEqual([]);
    }
  }
}

it('asks for the code, and says what is wrong with it', async () => {
  await page.goto(`${shop.origin}/`);
  await looksRight('pairing');
  await page.getByLabel('Code', { exact: true }).fill('BCDFGHJK');
  await page.getByRole('button', { name: 'Connect' }).click();
  await page.getByText('That code is wrong').waitFor();
  await looksRight('wrong-code');
});

it('shows the number while the shop decides, and that it was refused', async () => {
  const { code } = await shop.call('stations.newCode', {});
  // As the square code opens it.
  await page.goto(`${shop.origin}/?again#p=${code?.code}`);
  await page.getByRole('heading', { name: 'Compare this number' }).waitFor();
  expect(page.url()).toBe(`${shop.origin}/`);
  await looksRight('number');
  const [asked] = (await shop.call('stations.get', {})).requests;
  await shop.call('stations.refuse', { request: asked?.request ?? '' });
  await page.getByText('This device was not let in').waitFor();
  await looksRight('refused');
});

it('asks who works here for initials and PIN', async () => {
  stationId = await pairStation(shop, page, 'Cooler door', 'cooler');
  await looksRight('sign-in');
  const who = page.getByRole('dialog');
  await who.getByLabel('Initials').fill('mk');
  await who.getByLabel('PIN').fill('1234');
  const shown = await who
    .getByLabel('PIN')
    .evaluate((field) => getComputedStyle(field).getPropertyValue('-webkit-text-security'));
  expect(shown).toBe('disc');
  await who.getByRole('button', { name: 'Sign in' }).click();
  await who.getByText('do not match').waitFor();
  await looksRight('wrong-pin');
  await who.getByLabel('PIN').fill('4711');
  await who.getByRole('button', { name: 'Sign in' }).click();
  await who.waitFor({ state: 'hidden' });
  await expect.poll(() => page.getByRole('banner').textContent()).toContain('MK');
  await looksRight('connected');
});

it('signs an entry with who signed in, and lists what waits and what needs an answer', async () => {
  const coolerId = (await shop.call('coolers.list', {}))[0]?.id ?? 0;
  // Whoever signed in signs, whatever the input says.
  const log = (typed: string) =>
    saveAt(page, 'coolers.logTemperature', { coolerId, typed, by: 'ZZ' }, `Walk-in · ${typed} °F`);
  await log('36.1');
  await page.getByRole('button', { name: 'All saved' }).waitFor();
  const { today } = await shop.call('shop.get', {});
  const { byHand } = await shop.call('coolers.getRecord', { coolerId, from: today, to: today });
  expect(byHand).toMatchObject([{ typed: '36.1', by: 'MK' }]);
  await log('warm');
  await page.getByRole('button', { name: '1 needs an answer' }).waitFor();
  await shop.kill();
  await expect.poll(() => page.getByRole('banner').textContent()).toContain('Not connected');
  await log('36.2');
  await looksRight('away');
  await page.getByRole('button', { name: '1 needs an answer' }).click();
  await looksRight('entries');
  await page.getByRole('button', { name: 'Close' }).click();
  await page.getByText('Address of the shop’s computer').first().click();
  await page.getByRole('textbox', { name: 'Address of the shop’s computer' }).fill('not an address');
  await page.getByRole('button', { name: 'Use this address' }).click();
  await page.getByText('That is not an address').waitFor();
  await looksRight('address');
}, 60_000);

it('says that it is paused or removed, with what did not reach the book', async () => {
  await shop.start();
  await listening(shop);
  await page.getByText('Connected', { exact: true }).waitFor({ timeout: 20_000 });
  await shop.call('stations.pause', { id: stationId, reason: '', by: 'MK' });
  await page.getByRole('heading', { name: 'This station is paused' }).waitFor();
  await looksRight('paused');
  await shop.call('stations.resume', { id: stationId, reason: '', by: 'MK' });
  await page.getByRole('dialog').getByText('Who is working here?').waitFor({ timeout: 20_000 });
  await shop.call('stations.remove', { id: stationId, reason: 'lost', by: 'MK' });
  await page.getByRole('heading', { name: 'This station was removed' }).waitFor();
  await looksRight('removed');
  // A desk that is away is not an error of the page.
  expect(faults.filter((text) => !/Failed to load resource|ERR_/.test(text))).toEqual([]);
}, 60_000);

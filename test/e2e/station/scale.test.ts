/** A scale at a cutting table, in a browser that opens serial ports: its port is played, its lines are those of a real one. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bringAxe, rulesIn, violations } from '../axe-check.ts';
import { deerAtDesk } from '../shop-window.ts';
import { openStationShop, pairStation, type StationShop } from './station-shop.ts';

const PICTURES = process.env.STATION_PICTURES;
let shop: StationShop;
let device: BrowserContext;
let page: Page;
let animalId: number;
let ticket: string;
beforeAll(async () => {
  shop = await openStationShop();
  ({ ticket, id: animalId } = await deerAtDesk(shop, 'Ana Ruiz'));
  device = await shop.device('table', { hasTouch: true });
  page = device.pages()[0] ?? (await device.newPage());
  page.setDefaultTimeout(15_000);
});
afterAll(() => shop.end());

/** Plays a scale on a serial port that says `line` ten times a second. */
function playScale(line: string): void {
  const port = {
    readable: null as ReadableStream<Uint8Array> | null,
    writable: null,
    async open() {
      let timer = 0;
      port.readable = new ReadableStream({
        start: (stream) => {
          timer = window.setInterval(() => stream.enqueue(new TextEncoder().encode(`${line}\r\n`)), 100);
        },
        cancel: () => clearInterval(timer),
      });
    },
    async close() {
      port.readable = null;
    },
    getInfo: () => ({ usbVendorId: 1, usbProductId: 2 }),
  };
  const serial = {
    requestPort: async () => port,
    getPorts: async () => [],
    addEventListener: () => undefined,
  };
  Object.defineProperty(navigator, 'serial', { value: serial });
}

async function openAnimal(): Promise<void> {
  const pad = page.getByRole('group', { name: 'Number keys' });
  for (const key of String(Number(ticket.split('-').at(-1))))
    await pad.getByRole('button', { name: key, exact: true }).tap();
  await page.getByRole('button', { name: 'Open', exact: true }).tap();
  await page.getByRole('heading', { name: ticket }).waitFor();
  await page.locator('[data-cautions]').getByRole('button', { name: 'Hide' }).tap();
  // The button is gone, and the focus stays at the cautions.
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('SUMMARY');
}

it('fills in the weight that a person takes from it, and the book knows that it is the scale’s', async () => {
  await page.addInitScript(playScale, '78.40 lb');
  await pairStation(shop, page, 'Table 2', 'table');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).tap();
  await openAnimal();
  await page.getByRole('button', { name: 'Connect a scale' }).tap();
  await page.locator('.readout.reading .weight', { hasText: '78.40' }).waitFor();
  await bringAxe(page);
  for (const [width, height] of [[810, 1080], [1080, 810]] as const)
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      if (PICTURES) await page.screenshot({ path: `${PICTURES}/scale-${width}-${colorScheme}.png` });
      if (width === 810) expect(await violations(page, rulesIn(colorScheme))).toEqual([]);
    } // prettier-ignore
  const take = page.getByRole('button', { name: 'Use weight' });
  expect((await take.boundingBox())?.height).toBeGreaterThanOrEqual(56);
  await take.tap();
  expect(await page.locator('.entry input').inputValue()).toBe('78.40 lb');
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  const newest = async () => (await shop.call('animals.get', { id: animalId })).weighings.at(-1);
  await expect.poll(newest).toMatchObject({ typed: '78.40 lb', source: 'scale' });
}, 90_000);

it('is not offered where the browser opens no serial port', async () => {
  const other = await shop.device('phone', { hasTouch: true });
  const phone = other.pages()[0] ?? (await other.newPage());
  await phone.addInitScript(() => Reflect.deleteProperty(Navigator.prototype, 'serial'));
  page = phone;
  await pairStation(shop, phone, 'Phone', 'table');
  await phone.getByRole('dialog').getByRole('button', { name: 'MK' }).tap();
  await openAnimal();
  await phone.locator('.entry input').waitFor();
  expect(await phone.getByRole('button', { name: 'Connect a scale' }).count()).toBe(0);
  await other.close();
}, 60_000);

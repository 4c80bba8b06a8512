/** A backup takes the book's place while a station holds entries: nothing of it is lost or saved unasked. */
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { keepPictures } from '../keep-pictures.ts';
import { saveAt } from './outbox-of.ts';
import { openStationShop, pairStation, type StationShop } from './station-shop.ts';

const LOOKS = {
  sizes: [
    [1366, 768],
    [1920, 1080],
  ],
  fullPage: false,
} as const;

let shop: StationShop;
let page: Page;
let stationId: number;
let coolerId: number;
beforeAll(async () => {
  shop = await openStationShop();
  await shop.call('coolers.save', { name: 'Walk-in', places: 20, by: 'MK' });
  coolerId = (await shop.call('coolers.list', {}))[0]?.id ?? 0;
  const device = await shop.device('cooler');
  page = device.pages()[0] ?? (await device.newPage());
});
afterAll(() => shop.end());

const log = (typed: string) =>
  saveAt(page, 'coolers.logTemperature', { coolerId, typed, by: 'MK' }, `Walk-in · ${typed} °F`);

async function readings(): Promise<string[]> {
  const { today } = await shop.call('shop.get', {});
  const record = await shop.call('coolers.getRecord', { coolerId, from: today, to: today });
  return record.byHand.map(({ typed }) => typed);
}

it('asks before what was entered in the former book goes into the restored one, with all that it lacks', async () => {
  stationId = await pairStation(shop, page, 'Cooler door', 'cooler');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).click();
  await log('36.1');
  await expect.poll(readings).toEqual(['36.1']);
  const { path } = await shop.call('shop.backUp', {});
  await log('36.2');
  await expect.poll(readings).toEqual(['36.1', '36.2']);
  await shop.call('stations.pause', { id: stationId, reason: '', by: 'MK' });
  await page.getByRole('heading', { name: 'This station is paused' }).waitFor();
  await log('36.3');
  await shop.call('shop.restore', { path });

  // The restored book knows the station as it was, open.
  await page.getByRole('button', { name: '2 not saved yet' }).click({ timeout: 30_000 });
  const list = page.getByRole('dialog');
  await list.getByText('was restored from a backup').waitFor();
  expect(await readings()).toEqual(['36.1']);
  await list.getByRole('button', { name: 'Save them in this book' }).click();
  await expect.poll(readings).toEqual(['36.1', '36.2', '36.3']);
}, 90_000);

it('lets the office decide of what a station holds, seen where the day begins', async () => {
  const { path } = await shop.call('shop.backUp', {});
  await log('36.4');
  await expect.poll(readings).toHaveLength(4);
  await shop.call('shop.restore', { path });
  const office = await shop.office();
  await office.getByText('Cooler door still has 1 entry that is not in this book.').waitFor();
  await keepPictures(office, process.env.STATION_PICTURES, 'held-rail', LOOKS);
  await office.getByRole('link', { name: 'Stations' }).click();
  await office.getByRole('button', { name: 'Leave out entries from Cooler door' }).scrollIntoViewIfNeeded();
  await keepPictures(office, process.env.STATION_PICTURES, 'held-shop', LOOKS);
  await office.getByRole('button', { name: 'Leave out entries from Cooler door' }).click();
  await office.getByText('Cooler door still has 1 entry that was left out of this book.').waitFor();
  expect(await readings()).toHaveLength(3);
  await office.getByRole('button', { name: 'Add entries from Cooler door' }).click();
  await expect.poll(readings).toEqual(['36.1', '36.2', '36.3', '36.4']);
  await office.getByText('Cooler door still has').waitFor({ state: 'detached' });
  await office.close();
}, 90_000);

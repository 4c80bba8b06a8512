/** A station in a real browser: paired, worked at while the desk is away, closed and opened again, and removed. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { listening, openStationShop, pairStation, type StationShop } from './station-shop.ts';
import { saveAt } from './outbox-of.ts';

let shop: StationShop;
let device: BrowserContext;
let page: Page;
let stationId: number;
let coolerId: number;
beforeAll(async () => {
  shop = await openStationShop();
  await shop.call('coolers.save', { name: 'Walk-in', places: 20, by: 'MK' });
  coolerId = (await shop.call('coolers.list', {}))[0]?.id ?? 0;
  device = await shop.device('cooler');
  page = device.pages()[0] ?? (await device.newPage());
});
afterAll(() => shop.end());

async function byHand() {
  const { today } = await shop.call('shop.get', {});
  return (await shop.call('coolers.getRecord', { coolerId, from: today, to: today })).byHand;
}

/** The typed readings that stand in the book, oldest first. */
const readings = async () => (await byHand()).map(({ typed }) => typed);

const log = (typed: string) =>
  saveAt(page, 'coolers.logTemperature', { coolerId, typed, by: 'ZZ' }, `Cooler · ${typed}`);
const entries = () => page.getByRole('button', { name: /saved/ });

it('is paired, and says who works there, where it stands and that it is connected', async () => {
  stationId = await pairStation(shop, page, 'Cooler door', 'cooler');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).click();
  await expect.poll(() => page.getByRole('banner').textContent()).toMatch(/Cooler door.*Cooler.*Connected.*All saved.*MK/);
}); // prettier-ignore

it('saves an entry in the book at once while it is connected, with the initials of who works there', async () => {
  await log('36.1');
  await expect.poll(byHand).toMatchObject([{ typed: '36.1', by: 'MK' }]);
  await expect.poll(() => entries().textContent()).toContain('All saved');
});

it('keeps entries while the desk is away and the browser is closed, and sends each once, in order', async () => {
  await shop.kill();
  await expect.poll(() => page.getByRole('banner').textContent()).toContain('Not connected');
  for (const typed of ['36.2', '36.3', '36.4']) await log(typed);
  await expect.poll(() => entries().textContent()).toContain('3 not saved yet');
  await device.close();

  device = await shop.device('cooler');
  page = device.pages()[0] ?? (await device.newPage());
  await page.goto(`${shop.origin}/`); // the desk is still away: the page comes from the device
  await page.locator('h1', { hasText: 'Cooler door' }).waitFor();
  await expect.poll(() => entries().textContent()).toContain('3 not saved yet');
  await log('36.5');

  await shop.start();
  await listening(shop);
  await expect.poll(() => entries().textContent(), { timeout: 30_000 }).toContain('All saved');
  expect(await readings()).toEqual(['36.1', '36.2', '36.3', '36.4', '36.5']);
}, 120_000);

it('asks at the station what the desk refuses, and goes on with the next entry', async () => {
  await log('warm');
  await log('36.6');
  await page.getByRole('button', { name: '1 needs an answer' }).click();
  const list = page.getByRole('dialog');
  await expect.poll(() => list.getByRole('listitem').first().textContent()).toMatch(/warm.*Not saved/s);
  await list.getByRole('button', { name: 'Don’t save' }).click();
  await list.getByRole('button', { name: 'Close' }).click();
  await expect.poll(() => entries().textContent()).toContain('All saved');
  expect((await readings()).at(-1)).toBe('36.6');
});

it('is shut out at once when it is removed, and shows what did not reach the book', async () => {
  await shop.kill();
  await expect.poll(() => page.getByRole('banner').textContent()).toContain('Not connected');
  await log('36.7');
  await device.close();
  await shop.start();
  await listening(shop);
  await shop.call('stations.remove', { id: stationId, reason: 'lost', by: 'MK' });

  device = await shop.device('cooler');
  page = device.pages()[0] ?? (await device.newPage());
  await page.goto(`${shop.origin}/`);
  await page.getByRole('heading', { name: 'This station was removed' }).waitFor();
  expect(await page.getByRole('listitem').allTextContents()).toEqual([
    expect.stringMatching(/36\.7.*Not saved yet/s),
  ]);
  expect(await readings()).not.toContain('36.7');

  await page.getByRole('button', { name: 'Pair this device again' }).click();
  await pairStation(shop, page, 'Cooler door', 'cooler');
  await expect.poll(readings, { timeout: 20_000 }).toContain('36.7');
}, 120_000);

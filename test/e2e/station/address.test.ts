/** The shop's computer gets another address while a station is at work: nothing that was entered is stranded. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { saveAt } from './outbox-of.ts';
import { openStationShop, pairStation, type StationShop } from './station-shop.ts';

let shop: StationShop;
beforeAll(async () => void (shop = await openStationShop()));
afterAll(() => shop.end());

it('sends what was entered to the new address, from the page of the former one', async () => {
  await shop.call('coolers.save', { name: 'Walk-in', places: 20, by: 'MK' });
  const coolerId = (await shop.call('coolers.list', {}))[0]?.id ?? 0;
  const device = await shop.device('cooler');
  const page = device.pages()[0] ?? (await device.newPage());
  await pairStation(shop, page, 'Cooler door', 'cooler');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).click();
  const log = (typed: string) =>
    saveAt(page, 'coolers.logTemperature', { coolerId, typed, by: 'MK' }, `Walk-in · ${typed} °F`);
  const readings = async (): Promise<string[]> => {
    const { today } = await shop.call('shop.get', {});
    const record = await shop.call('coolers.getRecord', { coolerId, from: today, to: today });
    return record.byHand.map(({ typed }) => typed);
  };
  await log('36.1');
  await expect.poll(readings).toEqual(['36.1']);
  await page.getByRole('status').getByText('Connected').waitFor();
  // What a reload finds at the former address once nothing answers there.
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));

  const { settings } = await shop.call('stations.get', {});
  await shop.call('stations.setUp', { ...settings, address: '127.0.0.2', by: 'MK' });
  await expect
    .poll(async () => (await shop.call('stations.get', {})).line, { timeout: 30_000 })
    .toMatchObject({ state: 'open', addresses: ['127.0.0.2'] });
  await log('36.2');
  await expect.poll(readings, { timeout: 30_000 }).toEqual(['36.1', '36.2']);
  expect(page.url()).toContain(shop.origin);

  // It holds also for a page that is opened anew at its former address, which nothing answers any more.
  await page.reload();
  await page.locator('h1', { hasText: 'Cooler door' }).waitFor();
  await log('36.3');
  await expect.poll(readings, { timeout: 30_000 }).toEqual(['36.1', '36.2', '36.3']);
}, 120_000);

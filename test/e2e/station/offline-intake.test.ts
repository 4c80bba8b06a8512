/** An animal is taken in at the counter and weighed while the desk is away, and the desk is killed while it comes in. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { checkIn, press } from '../floor-day/hands.ts';
import { listening, openStationShop, pairStation, type StationShop } from './station-shop.ts';

const PICTURES = process.env.STATION_PICTURES;

let shop: StationShop;
let device: BrowserContext;
let page: Page;
beforeAll(async () => {
  shop = await openStationShop();
  device = await shop.device('counter', { hasTouch: true });
  page = device.pages()[0] ?? (await device.newPage());
  await pairStation(shop, page, 'Counter 2', 'counter');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).click();
});
afterAll(() => shop.end());

const all = async () => (await shop.call('rail.get', {})).hooks;

it('keeps the intake and its weights in order, each once', async () => {
  await shop.kill();
  await expect.poll(() => page.getByRole('banner').textContent()).toContain('Not connected');
  await checkIn({ page } as Parameters<typeof checkIn>[0], 'touch', 'Ana Ruiz', '96');
  await page.getByText('Ana Ruiz’s animal is saved on this device.').waitFor();
  await page.getByRole('button', { name: 'Next animal' }).tap();
  await page.getByRole('button', { name: 'Ana Ruiz', exact: true }).tap();
  await press(page, '95');
  await page.getByRole('button', { name: 'Save weight' }).tap();
  await page.getByText('not saved yet', { exact: true }).waitFor();
  for (const [width, height] of [[810, 1080], [1080, 810]] as const)
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.setViewportSize({ width, height });
      await page.emulateMedia({ colorScheme });
      if (PICTURES) await page.screenshot({ path: `${PICTURES}/no-ticket-${width}-${colorScheme}.png` });
    } // prettier-ignore
  await expect.poll(() => page.getByRole('banner').textContent()).toContain('2 not saved yet');

  // It may have taken the animal, its weight, or nothing yet.
  await shop.start();
  await listening(shop);
  await shop.kill();
  await shop.start();
  await listening(shop);
  await expect.poll(() => page.getByRole('banner').textContent(), { timeout: 40_000 }).toContain('All saved');
  const hooks = await all();
  expect(hooks).toHaveLength(1);
  const animal = await shop.call('animals.get', { id: hooks[0]?.id ?? 0 });
  expect(animal.hunter.name).toBe('Ana Ruiz');
  expect(animal.weighings.map(({ stage, typed }) => [stage, typed])).toEqual([
    ['received', '96'],
    ['hanging', '95'],
  ]);
  await page.locator('.figure', { hasText: animal.ticket }).waitFor();
}, 120_000);

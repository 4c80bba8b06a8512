/** Two people at one animal, one at a table's station and one in the office: each sees the other's work, and nobody undoes it unseen. */
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bringAxe, rulesIn, violations } from '../axe-check.ts';
import { deerAtDesk } from '../shop-window.ts';
import { openStationShop, pairStation, type StationShop } from './station-shop.ts';

/** A folder outside the repository, for pictures to look at. */
const PICTURES = process.env.STATION_PICTURES;

let shop: StationShop;
let station: Page;
let office: Page;
let animal: { id: number; ticket: string };
beforeAll(async () => {
  shop = await openStationShop();
  await shop.call('shop.addStaff', { initials: 'LS', name: 'Lena Sorel' });
  animal = await deerAtDesk(shop, 'Ana Ruiz');
  const device = await shop.device('table', { hasTouch: true });
  station = device.pages()[0] ?? (await device.newPage());
  station.setDefaultTimeout(15_000);
  await pairStation(shop, station, 'Table 2', 'table');
  await station.getByRole('dialog').getByRole('button', { name: 'MK', exact: true }).tap();
  await press(String(Number(animal.ticket.split('-').at(-1))));
  await station.getByRole('button', { name: 'Open', exact: true }).tap();
  await station.getByRole('heading', { name: animal.ticket }).waitFor();
  office = await shop.office();
  await office.goto(new URL(`/#/table/${animal.ticket}`, office.url()).href);
  await office.getByRole('heading', { level: 1, name: animal.ticket }).waitFor();
});
afterAll(() => shop.end());

async function press(keys: string): Promise<void> {
  const pad = station.getByRole('group', { name: 'Number keys' });
  for (const key of keys) await pad.getByRole('button', { name: key, exact: true }).tap();
}

/** Axe finds nothing, light or dark. */
async function looksRight(page: Page, name: string): Promise<void> {
  await bringAxe(page);
  for (const colorScheme of ['dark', 'light'] as const) {
    await page.emulateMedia({ colorScheme });
    await expect.poll(() => page.evaluate(() => document.documentElement.dataset.theme)).toBe(colorScheme);
    if (PICTURES) await page.screenshot({ path: join(PICTURES, `${name}-${colorScheme}.png`) });
    expect(await violations(page, rulesIn(colorScheme)), `${name} ${colorScheme}`).toEqual([]);
  }
}

async function weighings() {
  return (await shop.call('animals.get', { id: animal.id })).weighings;
}
const newest = async () => (await weighings()).at(-1);

it('shows the station’s weight in the office without a reload, and who is at work there', async () => {
  await press('78.4');
  await station.getByRole('button', { name: 'Save', exact: true }).tap();
  await office.getByRole('table', { name: 'Weights of this animal' }).getByText('78.4 lb').waitFor();
  await office.getByText('Table 2, MK: weighed just now').waitFor();
  expect(await station.getByText(/Table 2, MK: weighed/).count()).toBe(0);
});

it('shows the office’s weight at the station without a reload, and who is at work there', async () => {
  await shop.call('table.weigh', {
    animalId: animal.id,
    stage: 'cut',
    part: 'trim',
    typed: '20.4',
    by: 'LS',
  });
  await station.locator('.weights').getByText('20.4 lb').waitFor();
  await station.getByText('Office, LS: weighed just now').waitFor();
});

it('makes no second weight of a correction whose weight was corrected meanwhile', async () => {
  await station.getByRole('button', { name: 'Edit Trim 20.4' }).tap();
  await press('21');
  const trim = (await newest())?.id ?? 0;
  await shop.call('table.correct', { weighingId: trim, typed: '20.6', reason: 'a test', by: 'LS' });
  await station.getByText(/^LS changed it to 20\.6 lb in the meantime\./).waitFor();
  expect(await station.locator('.entry input').inputValue()).toBe('21');
  await looksRight(station, 'station');
  await press('.4');
  await station.getByRole('button', { name: 'Save', exact: true }).tap();
  await expect
    .poll(async () => (await weighings()).filter(({ part, voided }) => part === 'trim' && !voided))
    .toMatchObject([{ typed: '21.4' }]);
});

it('makes no other weight of a correction whose weight was voided meanwhile, in the office', async () => {
  const row = await newest();
  const list = office.getByRole('table', { name: 'Weights of this animal' });
  await list.getByRole('button', { name: 'Edit Trim 21.4' }).click();
  await office.locator('main input[inputmode="decimal"]').first().fill('19');
  await shop.call('table.void', { weighingId: row?.id ?? 0, reason: 'a test', by: 'LS' });
  await office.getByText('LS voided it in the meantime.').waitFor();
  await looksRight(office, 'office');
  await office.locator('main input[inputmode="decimal"]').first().press('Enter');
  await office.getByRole('alert').filter({ hasText: 'already voided' }).waitFor();
  expect(await office.getByRole('button', { name: /^Yes/ }).count()).toBe(0);
  expect(await office.locator('main input[inputmode="decimal"]').first().inputValue()).toBe('19');
  expect((await weighings()).filter(({ part, voided }) => part === 'trim' && !voided)).toEqual([]);
});

it('takes over in an open record what others changed in it, keeps what was typed, and says both', async () => {
  await office.goto(new URL(`/#/table/${animal.ticket}?edit=1`, office.url()).href);
  const record = office.getByRole('dialog');
  await record.getByLabel('License', { exact: true }).fill('L-1');
  await shop.call('animals.edit', {
    id: animal.id, changes: { tag: 'T-9', licence: 'L-2', phone: '307-555-0199' }, reason: 'a test', by: 'LS',
  }); // prettier-ignore
  await record.getByText('Someone else changed this in the meantime.').waitFor();
  await record.getByText('Tag or permit: nothing → T-9').waitFor();
  await record.getByText('License: nothing → L-2. You changed it too').waitFor();
  expect(await record.getByLabel('License', { exact: true }).inputValue()).toBe('L-1');
  await looksRight(office, 'record');
  await record.getByLabel('Reason').fill('typed wrong');
  await record.getByRole('button', { name: 'Save', exact: true }).click();
  await record.waitFor({ state: 'hidden' });
  const { tag, licence, hunter } = await shop.call('animals.get', { id: animal.id });
  expect({ tag, licence, phone: hunter.phone }).toEqual({
    tag: 'T-9',
    licence: 'L-1',
    phone: '307-555-0199',
  });
});

it('does not take back an order that came in while the cut sheet was open', async () => {
  await office.getByRole('button', { name: 'Enter cut sheet' }).click();
  const sheet = office.getByRole('dialog');
  const { instructions } = await shop.call('animals.get', { id: animal.id });
  await shop.call('animals.saveOrders', {
    id: animal.id, instructions: { ...instructions, note: 'Save the neck whole' }, by: 'LS',
  }); // prettier-ignore
  await sheet.getByText('Save the neck whole').waitFor();
  await looksRight(office, 'cut-sheet');
  await sheet.getByRole('button', { name: 'Save', exact: true }).click();
  await sheet.waitFor({ state: 'hidden' });
  expect((await shop.call('animals.get', { id: animal.id })).instructions.note).toBe('Save the neck whole');
});

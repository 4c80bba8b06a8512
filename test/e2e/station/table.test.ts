/** A cutting table in a real browser over TLS: a carcass weighed by the pad, a doubt answered, the desk cut off in between. */
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { deerAtDesk } from '../shop-window.ts';
import { listening, openStationShop, pairStation, type StationShop } from './station-shop.ts';

let shop: StationShop;
let device: BrowserContext;
let page: Page;
let ticket: string;
let animalId: number;
beforeAll(async () => {
  shop = await openStationShop();
  ({ ticket, id: animalId } = await deerAtDesk(shop, 'Ana Ruiz'));
  device = await shop.device('table', { hasTouch: true });
  page = device.pages()[0] ?? (await device.newPage());
  page.setDefaultTimeout(15_000);
  await pairStation(shop, page, 'Table 2', 'table');
  await page.getByRole('dialog').getByRole('button', { name: 'MK' }).tap();
});
afterAll(() => shop.end());

/** The weights that stand in the book, oldest first. */
async function weights(): Promise<string[]> {
  const { weighings } = await shop.call('animals.get', { id: animalId });
  return weighings
    .filter(({ voided }) => voided === null)
    .map(({ stage, part, typed }) => `${stage === 'cut' ? part : stage} ${typed}`);
}

/** Presses the keys of the pad. */
async function press(keys: string): Promise<void> {
  const pad = page.getByRole('group', { name: 'Number keys' });
  for (const key of keys) await pad.getByRole('button', { name: key, exact: true }).tap();
}
async function weigh(keys: string): Promise<void> {
  await press(keys);
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
}
const part = (name: string) => page.locator('label').filter({ hasText: name }).tap();

it('opens the animal by the last digits of its ticket, and cautions before the work', async () => {
  await press(String(Number(ticket.split('-').at(-1))));
  await page.getByRole('button', { name: 'Open' }).tap();
  await page.getByRole('heading', { name: ticket }).waitFor();
  await page.locator('[data-cautions]').getByRole('button', { name: 'Hide' }).tap();
});

it('weighs the carcass and its parts by the pad, without waiting for the desk', async () => {
  await weigh('78.4');
  await part('Bone');
  await weigh('12.4');
  await expect.poll(weights).toEqual(['received 80', 'hanging 78.4', 'bone 12.4']);
});

it('asks about a weight that cannot be right, and saves what was meant', async () => {
  await part('Trim');
  await weigh('70');
  const question = page.getByRole('alert').filter({ hasText: 'Trim 70 lb' });
  await question.waitFor();
  expect(await weights()).toHaveLength(3);
  await question.getByRole('button', { name: 'No, weigh again' }).tap();
  await weigh('21.4');
  await expect.poll(weights).toEqual(['received 80', 'hanging 78.4', 'bone 12.4', 'trim 21.4']);
});

it('goes on while the desk is gone, and each weight arrives once', async () => {
  await shop.kill();
  await expect.poll(() => page.getByRole('banner').textContent()).toContain('Not connected');
  await part('Sinew');
  await weigh('2.2');
  await part('Whole cuts');
  await weigh('30.5');
  const list = page.locator('.weights');
  await expect.poll(() => list.getByText('not saved yet').count()).toBe(2);
  await shop.start();
  await listening(shop);
  await expect.poll(weights, { timeout: 30_000 }).toEqual([
    'received 80', 'hanging 78.4', 'bone 12.4', 'trim 21.4', 'sinew 2.2', 'whole cuts 30.5',
  ]); // prettier-ignore
  await expect.poll(() => list.getByText('not saved yet').count()).toBe(0);
}, 90_000);

it('is typed by a keyboard too, into the entry that kept the focus', async () => {
  await page.keyboard.type('1.3');
  await page.keyboard.press('Enter');
  await expect.poll(weights).toContain('whole cuts 1.3');
});

it('voids a weight for a reason, and moves the animal on', async () => {
  await page.getByRole('button', { name: 'Void Sinew 2.2', exact: true }).tap();
  await page.getByRole('dialog').getByRole('button', { name: 'Weighed twice' }).tap();
  await expect.poll(weights).not.toContain('sinew 2.2');
  await page.getByRole('button', { name: 'Finished cutting' }).tap();
  await expect.poll(async () => (await shop.call('animals.get', { id: animalId })).stage).toBe('packing');
});

/** Meat ground together with that of an animal on hold: it is held too, says why, and the grinder must be cleaned. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let held: { id: number; ticket: string };
let other: { id: number; ticket: string };
let batch: { id: number; name: string };

beforeAll(async () => {
  shop = await openShop();
  held = await deerAtDesk(shop, 'Ann Alder', { trim: '20' });
  other = await deerAtDesk(shop, 'Bo Birch', { trim: '18' });
  batch = await shop.call('grinder.start', {
    animals: [{ id: held.id }, { id: other.id }], fat: 'none', targetFat: null, product: 'Snack sticks',
  }); // prettier-ignore
  for (const [animalId, typed] of [
    [held.id, '20'],
    [other.id, '18'],
  ] as const)
    // prettier-ignore
    await shop.call('grinder.weighIn', { batchId: batch.id, animalId, part: 'trim', typed });
  await shop.call('grinder.pack', { batchId: batch.id, product: 'Snack sticks', count: 30, typed: '36' });
  await shop.call('animals.setStage', {
    id: other.id,
    stage: 'ready',
    answer: 'weighed again',
    confirmed: true,
  });
  await shop.call('animals.hold', { id: held.id, reason: 'sample', sample: 'L-704' });
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

describe('meat ground together with that of a held animal', () => {
  it('is held at Pickup, and names the held animal', async () => {
    const { keys, page } = shop;
    await keys.goTo('pickup', 7);
    const row = page.getByRole('row', { name: new RegExp(other.ticket) });
    await row.getByText(`Ground in ${batch.name} with ${held.ticket}, which is on hold`).waitFor();
    expect(await row.getByRole('button', { name: /^Hand over/ }).count()).toBe(0);
  });

  it('requires a cleaning of the grinder, which is recorded and can be undone', async () => {
    const { keys, page } = shop;
    await keys.goTo('grinder', 4);
    const due = page.getByText(`No cleaning is recorded after ${batch.name}`);
    await due.waitFor();
    await keys.pressOn('Record cleaning');
    await page.getByText('The cleaning is recorded.').waitFor();
    await due.waitFor({ state: 'detached' });
    await keys.press('Control+z');
    await due.waitFor();
    await keys.pressOn('Record cleaning');
    await due.waitFor({ state: 'detached' });
    await scanTicket(page, held.ticket);
    await page
      .getByText(new RegExp(`Grinder cleaned after ${batch.name}: .*Nothing went through in between`))
      .waitFor();
  });

  it('is released by a negative result without further action', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Enter test result');
    await keys.choose('Result', 'Not detected');
    await keys.tabTo(page.getByRole('dialog').getByRole('button', { name: 'Save result' }));
    await keys.press('Enter');
    await page.getByText(`${held.ticket}: not detected. The hold has ended.`).waitFor();
    await keys.goTo('pickup', 7);
    await page.getByRole('button', { name: `Hand over ${other.ticket}` }).waitFor();
    expect(shop.complaints).toEqual([]);
  });

  it('has no raw-meat advice on a product that the shop dries', async () => {
    const { page } = shop;
    await page.evaluate((to) => (location.hash = `#/grinder/${to}`), batch.id);
    const label = page.locator('article.label').first();
    await label.getByText('Ask the shop how to store and serve it.').waitFor();
    expect(await label.innerText()).not.toMatch(/165|FROZEN/);
  });
});

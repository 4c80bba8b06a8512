/**
 * Meat ground together with that of an animal that tests positive: whom to call and the actions taken, on the page of
 * the positive animal.
 */
import { afterAll, beforeAll, beforeEach, expect, it } from 'vitest';
import { scanTicket } from '../replay/open-ticket.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let sick: { id: number; ticket: string };
let other: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
  sick = await deerAtDesk(shop, 'Ann Alder', { trim: '20' });
  other = await deerAtDesk(shop, 'Bo Birch', { trim: '18' });
  const { id: batchId } = await shop.call('grinder.start', {
    animals: [{ id: sick.id }, { id: other.id }], fat: 'none', targetFat: null, product: 'Snack sticks',
  }); // prettier-ignore
  for (const [animalId, typed] of [
    [sick.id, '20'],
    [other.id, '18'],
  ] as const)
    await shop.call('grinder.weighIn', { batchId, animalId, part: 'trim', typed });
  await shop.call('animals.hold', { id: sick.id, reason: 'sample', sample: 'L-704' });
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

it('records by keyboard that the hunter was called, and undoes it', async () => {
  const { keys, page } = shop;
  await scanTicket(page, sick.ticket);
  await keys.pressOn('Enter test result');
  await keys.choose('Result', 'Positive');
  await keys.tabTo(page.getByRole('dialog').getByRole('button', { name: 'Save result' }));
  await keys.press('Enter');
  const affected = page.getByRole('list', { name: 'Animals and hunters' });
  await affected.getByText('Bo Birch').waitFor();
  await keys.pressOn(`Record what was done about ${other.ticket}`);
  await page.getByRole('dialog').getByText('Bo Birch').waitFor();
  await keys.fill('Note', 'Left a message at noon');
  await keys.press('Enter');
  await affected.getByText('Left a message at noon').waitFor();
  const notes = async () =>
    (await shop.call('animals.get', { id: sick.id })).affects?.animals.flatMap((one) => one.notes);
  expect(await notes()).toMatchObject([{ what: 'called', note: 'Left a message at noon' }]);
  await keys.press('Control+z');
  await affected.getByText('Left a message at noon').waitFor({ state: 'detached' });
  expect(await notes()).toEqual([]);
  expect(shop.complaints).toEqual([]);
});

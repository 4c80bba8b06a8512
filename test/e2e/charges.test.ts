/**
 * Extras, hours, a product without a price and a discount, from the order to the bill, by keyboard and to the cent.
 */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { CallInput } from '../../src/bridge/contract.ts';
import { openShop, type ShopWindow } from './shop-window.ts';

type Line = CallInput<'prices.save'>['lines'][number];
const line = (more: Pick<Line, 'code' | 'label' | 'basis'> & Partial<Line>): Line => ({
  amountMinor: null, rate: null, unit: null, species: null, brought: null, fatSource: null, taxRate: 0,
  ...more,
}); // prettier-ignore
const LINES = [
  line({ code: 'base', label: 'Deer: cut and wrap', basis: 'animal', amountMinor: 11_000 }),
  line({ code: 'grind', label: 'Grinding', basis: 'ground', unit: 'lb', amountMinor: 45 }),
  line({ code: 'brats', label: 'Bratwurst making', basis: 'product', unit: 'lb', amountMinor: 325, products: ['bratwurst'] }),
  line({ code: 'caping', label: 'Caping for a mount', basis: 'extra', amountMinor: 5000 }),
  line({ code: 'rush', label: 'Rush order', basis: 'extra', amountMinor: 4000 }),
  line({ code: 'trimming', label: 'Trimming of damaged meat', basis: 'hour', amountMinor: 3600 }),
]; // prettier-ignore

let shop: ShopWindow;
let deer: { id: number; ticket: string };

beforeAll(async () => {
  shop = await openShop();
  await shop.call('shop.addStaff', { initials: 'RB', name: 'Ruth Baker' });
  await shop.call('prices.save', { name: 'Fall prices', validFrom: '2020-01-01', lines: LINES });
  deer = await shop.call('intake.takeIn', {
    hunter: { name: 'Dana Whitlock', phone: '307-555-0142' }, species: 'white-tail', sex: 'male', age: 'adult', brought: 'skinned',
    weights: [{ stage: 'hanging', typed: '80' }],
  }); // prettier-ignore
  await shop.call('table.weigh', {
    animalId: deer.id,
    stage: 'cut',
    part: 'trim',
    typed: '40',
    confirmed: true,
  });
  const { id: batchId } = await shop.call('grinder.start', {
    animals: [{ id: deer.id }], fat: 'none', targetFat: null, product: 'Summer sausage',
  }); // prettier-ignore
  await shop.call('grinder.weighIn', { batchId, animalId: deer.id, part: 'trim', typed: '40' });
  await shop.call('grinder.pack', { batchId, product: 'Summer sausage', count: 40, typed: '39.90' });
  await shop.call('grinder.finish', { batchId });
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const total = (money: string) =>
  shop.page.getByRole('row', { name: `Total ${money}`, exact: true }).waitFor();

describe('charges that are not weights', () => {
  it('include hours recorded at the Table', async () => {
    const { keys, page } = shop;
    await page.evaluate((ticket) => (location.hash = `#/table/${ticket}`), deer.ticket);
    await page.getByRole('heading', { name: 'Hours' }).waitFor();
    await keys.fill('Time, 1:30 or 90 min', '1:30');
    await keys.press('Enter');
    await page.getByRole('row', { name: /Trimming of damaged meat.* 1 h 30 min/ }).waitFor();
  });

  it('include a product without a price, charged as the selected line', async () => {
    const { keys, page } = shop;
    await page.evaluate((ticket) => (location.hash = `#/bill/${ticket}`), deer.ticket);
    await page.getByText('No price for Summer sausage.').waitFor();
    // $110.00 + 1.5 h × $36.00.
    await total('$164.00');
    await keys.pressOn('Bratwurst making');
    // 39.9 lb × $3.25 = $129.675 → $129.68.
    await total('$293.68');
    expect(await page.getByText('No price for Summer sausage.').count()).toBe(0);
  });

  it('include extras by count', async () => {
    const { keys, page } = shop;
    await keys.pressOn('One more of Caping for a mount');
    await page.getByRole('row', { name: /^Caping for a mount 1 / }).waitFor();
    await keys.pressOn('One more of Caping for a mount');
    await page.getByRole('row', { name: /^Caping for a mount 2 / }).waitFor();
    await total('$393.68');
  });

  it('include a discount with its reason, frozen with the bill', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Add a discount or change');
    await keys.choose('Kind', 'Percent off');
    await keys.fill('Percent', '10');
    await keys.fill('Reason', 'comes each year');
    await keys.press('Enter');
    // A tenth of $393.68 is $39.368 → $39.37.
    await total('$354.31');
    await keys.pressOn('Make bill');
    await page.getByRole('heading', { name: 'Bill 1' }).first().waitFor();
    await page
      .getByRole('row', { name: /^Discount: comes each year/ })
      .first()
      .waitFor();
    const { bill } = await shop.call('bills.get', { animalId: deer.id });
    expect(bill?.totalMinor).toBe(35_431);
    expect(shop.complaints).toEqual([]);
  });
});

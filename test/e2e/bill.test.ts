/** From a quote by phone to pickup: the money of one deer, by keyboard, to the cent. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import type { CallInput } from '../../src/bridge/contract.ts';
import { messageToHunter } from './hunter-message.ts';
import { openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let deer: { id: number; ticket: string };
type Line = CallInput<'prices.save'>['lines'][number];
const line = (more: Pick<Line, 'code' | 'label' | 'basis'> & Partial<Line>): Line => ({
  amountMinor: null, rate: null, unit: null, species: null, brought: null, fatSource: null, taxRate: 0,
  ...more,
}); // prettier-ignore
const LINES = [
  line({ code: 'hang', label: 'Cut and wrap', basis: 'hanging', unit: 'lb', amountMinor: 95, taxRate: 0.06 }),
  line({ code: 'grind', label: 'Grinding', basis: 'ground', unit: 'lb', amountMinor: 45 }),
];

beforeAll(async () => {
  shop = await openShop();
  await shop.call('prices.save', { name: 'Fall prices', validFrom: '2020-01-01', lines: LINES });
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const cents = (money: string): number => Math.round(Number(money.replace(/[$,+]/g, '')) * 100);
const follow = async (name: string) => {
  await shop.keys.tabTo(shop.page.getByRole('link', { name, exact: true }));
  await shop.keys.press('Enter');
};

describe('the money of one deer', () => {
  it('is quoted by phone', async () => {
    const { keys, page } = shop;
    await keys.goTo('quote', 6);
    await keys.choose('Species', 'Mule deer');
    await keys.fill('Weight', '76');
    await page.getByRole('heading', { name: 'Take-home meat' }).waitFor();
    await keys.fill('Hunter', 'Dana Whitlock');
    await keys.pressOn('Save this quote');
    await page.getByText(/Q\d\d-0001 is saved/).waitFor();
    // 76 lb × $0.95 = $72.20.
    await page.getByRole('row', { name: /^Cut and wrap \$72\.20/ }).waitFor();
  });

  it('is filled into Intake from the quote, with the actual weight', async () => {
    const { keys, page } = shop;
    await keys.pressOn('Check in this animal');
    await page.waitForURL(/#\/intake/);
    await keys.fill('Name or phone number', 'Dana Whitlock');
    await keys.fill('Phone', '307-555-0142');
    await keys.choose('Sex', 'Buck');
    await keys.choose('Age', 'Adult');
    await keys.fill('Hanging weight', '80');
    await keys.press('Control+Enter');
    await page.getByRole('button', { name: 'Take to the table' }).waitFor();
    const [hook] = (await shop.call('rail.get', {})).hooks;
    deer = hook ?? { id: 0, ticket: '' };
    await keys.pressOn('Take to the table');
    await page.waitForURL((url) => url.hash === `#/table/${deer.ticket}`);
  });

  it('is cut and ground while prices rise', async () => {
    const { call } = shop;
    for (const [part, typed] of [
      ['trim', '30'],
      ['whole cuts', '16.55'],
    ] as const)
      await call('table.weigh', { animalId: deer.id, stage: 'cut', part, typed, confirmed: true });
    const { id: batchId } = await call('grinder.start', {
      animals: [{ id: deer.id }], fat: 'none', targetFat: null, product: 'Ground',
    }); // prettier-ignore
    await call('grinder.weighIn', { batchId, animalId: deer.id, part: 'trim', typed: '30' });
    await call('grinder.pack', { batchId, product: 'Ground', count: 30, typed: '29.50' });
    await call('grinder.finish', { batchId });
    await call('prices.save', {
      name: 'Winter prices',
      validFrom: '2020-01-01',
      lines: LINES.map((one) => (one.code === 'hang' ? { ...one, amountMinor: 105 } : one)),
    });
    await call('animals.setStage', { id: deer.id, stage: 'packing' });
  });

  it('is billed from the Table, with the difference from the quote explained to the cent', async () => {
    const { keys, page } = shop;
    await page.getByText('Not billed yet.').waitFor();
    await follow('Open bill');
    await keys.pressOn('Make bill');
    await page.getByText('Bill 1 made.').waitFor();
    // 80 lb × $1.05 = $84.00, tax $5.04; 29.5 lb × $0.45 = $13.275 → $13.28: $102.32.
    const paper = page.getByRole('article', { name: 'Bill 1' });
    await paper.getByRole('row', { name: 'Total $102.32', exact: true }).waitFor();
    const beside = page.getByRole('table', { name: /^Compared with quote/ });
    // Four pounds more at 95 cents, and 10 cents more on each of 80 pounds.
    await beside.getByText('80.00 lb instead of 76.00 lb: +$3.80').waitFor();
    await beside.getByText('$1.05 / lb instead of $0.95 / lb: +$8.00').waitFor();
    const rows = (await beside.getByRole('row').allInnerTexts()).slice(1);
    const told = rows.map((row) => {
      const shown = row.split(/[\n\t]+/).filter(Boolean);
      const [quoted = '', billed = '', difference = ''] = shown.slice(-3);
      const reasons = shown.flatMap((text) => /: ([+-]?\$[\d.,]+|-\$[\d.,]+)$/.exec(text)?.[1] ?? []);
      return {
        name: shown[0],
        quoted: cents(quoted),
        billed: cents(billed),
        difference: cents(difference),
        reasons,
      };
    });
    const total = told.pop();
    const sum = (of: (row: (typeof told)[number]) => number): number =>
      told.reduce((all, row) => all + of(row), 0);
    expect(told.map(({ name }) => name)).toEqual(['Cut and wrap', 'Grinding', 'Tax']);
    expect(total).toMatchObject({ name: 'Total', billed: 10_232, quoted: sum(({ quoted }) => quoted) });
    expect(total?.difference).toBe(10_232 - (total?.quoted ?? 0));
    expect(sum(({ difference }) => difference)).toBe(total?.difference);
    for (const { reasons, difference, name } of told)
      if (reasons.length > 0)
        expect(
          reasons.reduce((all, reason) => all + cents(reason), 0),
          name,
        ).toBe(difference);
  });

  it('is paid in part, and not handed over unpaid', async () => {
    const { keys, page } = shop;
    await keys.fill('Amount', '50');
    await keys.pressOn('Save');
    // $102.32 − $50.00.
    await page.locator('main').getByText('$52.32').first().waitFor();
    await keys.tabTo(page.getByRole('link', { name: /^Back: / }));
    await keys.press('Enter');
    await page.getByText('Bill 1: $52.32 due.').waitFor();
    await keys.pressOn('Packed, ready for pickup');
    // This shop has weighed no packages of whole cuts yet, so none are missing.
    await page.getByRole('link', { name: 'Hand over at Pickup' }).waitFor();
    await keys.goTo('pickup', 7);
    await keys.pressOn(`Hand over ${deer.ticket}`);
    await keys.pressOn('Hand over');
    await page.getByText(`${deer.ticket} still has $52.32 due.`).waitFor();
    await keys.pressOn('Cancel');
  });

  it('is reported to the hunter with the balance due', async () => {
    const { keys, page } = shop;
    await keys.pressOn(`Call about ${deer.ticket}`);
    const message = await messageToHunter(page);
    expect(message).toContain(
      `is packed and ready at Cold Creek Locker: Mule deer, ticket ${deer.ticket}, 30 packages, 29.50 lb.`,
    );
    expect(message).toContain('Balance due: $52.32.');
    await keys.fill('Result of the call', 'Comes on Friday');
    await keys.press('Enter');
    await page.getByRole('list', { name: 'Calls' }).getByText('Comes on Friday').waitFor();
    await keys.press('Escape');
    await page
      .getByRole('row', { name: new RegExp(deer.ticket) })
      .getByText('Comes on Friday')
      .waitFor();
  });

  it('is paid in full and handed over', async () => {
    const { keys, page } = shop;
    await follow('$52.32 due');
    // The amount defaults to the balance due.
    await keys.pressOn('Save');
    await page.getByText('Paid in full').first().waitFor();
    await follow('Open Pickup');
    await keys.pressOn(`Hand over ${deer.ticket}`);
    await keys.pressOn('Hand over');
    await page.getByText(`${deer.ticket} was handed to Dana Whitlock.`).waitFor();
    expect(await shop.call('animals.get', { ticket: deer.ticket })).toMatchObject({
      stage: 'released',
      bill: { billed: true, number: 1, dueMinor: 0 },
    });
  });

  it('keeps its currency on screen and on paper when the shop changes to another', async () => {
    const { call, page } = shop;
    await call('shop.saveSettings', { changes: { currency: 'EUR' } });
    await page.goto(`${page.url().split('#')[0]}#/bill/${deer.ticket}`);
    const paper = page.getByRole('article', { name: 'Bill 1' });
    await paper.getByRole('row', { name: 'Total $102.32', exact: true }).waitFor();
    const payments = page.getByRole('table', { name: 'Payments' });
    expect((await payments.getByRole('row').allInnerTexts()).join()).toMatch(/\$50\.00[^]*\$52\.32/);
    expect(await page.locator('body').innerText()).not.toContain('€');
  });

  it('raised no console errors', () => expect(shop.complaints).toEqual([]));
});

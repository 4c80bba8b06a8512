/** Payments by keyboard: a deposit at drop-off, a check, the till closed to the cent, a reminder. */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { workAs } from './frame.ts';
import { messageToHunter } from './hunter-message.ts';
import { printed } from './paper.ts';
import { deerAtDesk, openShop, type ShopWindow } from './shop-window.ts';

let shop: ShopWindow;
let deer: { id: number; ticket: string };
const NO_FILTER = { rate: null, species: null, brought: null, product: null, fatSource: null, taxRate: 0 };

beforeAll(async () => {
  shop = await openShop();
  const { call } = shop;
  await call('shop.saveSettings', {
    changes: {
      shopAddress: '12 Creek Road\nLaramie',
      shopPhone: '307-555-0199',
      shopLicense: 'P-1182',
      shopTaxNumber: '83-1',
      terms: 'Due at pickup.',
      dropOffTerms: 'Pick up within 14 days.',
    },
  });
  await call('shop.addStaff', { initials: 'MK', name: 'Mika Koski' });
  await call('prices.save', {
    name: 'Fall prices',
    validFrom: '2020-01-01',
    lines: [
      { code: 'hang', label: 'Cut and wrap', basis: 'hanging', unit: 'lb', amountMinor: 95, ...NO_FILTER },
      { code: 'deposit', label: 'Deposit', basis: 'deposit', unit: null, amountMinor: 5000, ...NO_FILTER },
    ],
  });
  deer = await deerAtDesk(shop, 'Dana Whitlock', {}, { tag: 'T-118', sample: 'L26-9' });
  await workAs(shop.page, 'MK');
  await shop.page.evaluate(() => {
    const counter = Object.assign(window, { timesPrinted: 0 });
    window.print = () => void (counter.timesPrinted += 1);
  });
});
beforeEach(({ onTestFailed, task }) => onTestFailed(() => shop.tellOf(task.name)));
afterAll(() => shop?.close());

const goTo = async (hash: string): Promise<void> => {
  await shop.page.evaluate((to) => (location.hash = to), hash);
};
const timesPrinted = (): Promise<number> =>
  shop.page.evaluate(() => (window as unknown as { timesPrinted: number }).timesPrinted);

describe('payments at the counter', () => {
  it('begin with the price book’s deposit: a letter and Enter save and print it', async () => {
    const { keys, page, call } = shop;
    await goTo(`#/table/${deer.ticket}`);
    await page.getByRole('link', { name: 'Drop-off receipt' }).first().waitFor();
    await keys.tabTo(page.getByRole('link', { name: 'Drop-off receipt' }).first());
    await keys.press('Enter');
    const field = page.getByRole('textbox', { name: 'Amount' });
    await field.waitFor();
    expect(await field.inputValue()).toBe('50.00');
    // Printing stands in the head of the page, as on every paper.
    await page.locator('header.head').getByRole('button', { name: 'Save deposit and print' }).waitFor();
    await keys.press('h');
    await keys.press('Enter');
    await expect.poll(timesPrinted).toBe(1);
    expect((await call('bills.get', { animalId: deer.id })).payments).toMatchObject([
      { kind: 'deposit', method: 'check', amountMinor: 5000, by: 'MK' },
    ]);
  });

  it('have a receipt with letterhead, animal, hold, deposit and terms', async () => {
    const [sheet] = await printed(shop.page);
    for (const words of [
      'Cold Creek Locker',
      '12 Creek Road',
      '307-555-0199',
      'License P-1182',
      'Tax ID 83-1',
      deer.ticket,
      'Dana Whitlock',
      'T-118',
      'On hold',
      'Not asked yet',
      '$50.00, Check',
      'Pick up within 14 days.',
    ])
      // prettier-ignore
      expect(sheet?.words).toContain(words);
  });

  it('have the letterhead and the terms on the bill and on a receipt', async () => {
    const { call, page } = shop;
    await call('table.weigh', {
      animalId: deer.id,
      stage: 'hanging',
      part: 'carcass',
      typed: '76',
      confirmed: true,
    });
    await call('bills.create', { animalId: deer.id, confirmed: true });
    const { id } = await call('bills.pay', {
      animalId: deer.id, kind: 'payment', method: 'cash', typed: '12.20', by: 'MK',
    }); // prettier-ignore
    for (const [hash, title] of [
      [`#/bill/${deer.ticket}`, 'Bill 1'],
      [`#/receipt/${deer.ticket}/${id}`, `Receipt ${id}`],
    ] as const) {
      await goTo(hash);
      await page.getByRole('article', { name: title }).waitFor();
      const [sheet] = await printed(page);
      for (const words of ['12 Creek Road', 'License P-1182', 'Due at pickup.'])
        expect(sheet?.words, title).toContain(words);
    }
  });

  it('are counted in the evening: the day is closed to the cent, numbered and signed', async () => {
    const { keys, page, call } = shop;
    await goTo('#/till');
    await keys.fill('Opening float', '150');
    await keys.press('Enter');
    await page.getByText('Opening float saved.').waitFor();
    // 150 + 12.20 in cash; the check is no cash. A dollar is missing.
    await page.getByText('$162.20').first().waitFor();
    await keys.fill('Cash counted', '161.20');
    await keys.pressOn('Close day');
    await page.getByText(/The drawer is \$1\.00 short/).waitFor();
    // The required note has the focus.
    await keys.type('Counted twice');
    await keys.press('Enter');
    await page.getByText('Day closed. Closing 1.').waitFor();
    expect((await call('till.get', {})).closing).toMatchObject({ number: 1, overMinor: -100, by: 'MK' });
    // Enter then prints the closing, because its button has the focus.
    await expect.poll(() => page.evaluate(() => document.activeElement?.textContent?.trim())).toBe('Print');
    await page.getByRole('article', { name: 'Closing 1' }).waitFor();
    const [sheet] = await printed(page);
    for (const words of ['Closing 1', '$162.20', 'Counted twice', '12 Creek Road', 'by MK'])
      expect(sheet?.words).toContain(words);
    expect(sheet?.words).not.toContain('Open balances');
  });

  it('are listed separately after the closing, which is unchanged', async () => {
    const { call, page } = shop;
    await call('bills.pay', { animalId: deer.id, kind: 'payment', method: 'cash', typed: '5', by: 'MK' });
    await page.getByRole('table', { name: 'After closing' }).getByText('$5.00').waitFor();
    expect(await call('till.get', {})).toMatchObject({ cashMinor: 1220, expectedMinor: 16_220 });
  });

  it('are requested for an open balance, with a message and a statement', async () => {
    const { keys, page } = shop;
    await goTo('#/till?tab=owed');
    // 76 × $0.95 = $72.20, paid 50 + 12.20 + 5.
    await page.getByText('$5.00 owed by 1 hunter').waitFor();
    await keys.pressOn(`Remind about ${deer.ticket}`);
    const message = await messageToHunter(page);
    expect(message).toContain(`ticket ${deer.ticket}`);
    expect(message).toContain('Balance due: $5.00.');
    await keys.fill('Call or reminder', 'Left a message');
    await keys.press('Enter');
    await page.getByRole('table', { name: 'Open balances' }).getByText('Left a message').waitFor();
    await keys.tabTo(page.getByRole('link', { name: 'Statement for Dana Whitlock' }));
    await keys.press('Enter');
    await page.getByText('Balance due: $5.00').waitFor();
    expect((await printed(page))[0]?.words).toContain('12 Creek Road');
  });

  it('are exported as a file for the accountant', async () => {
    const { keys, page } = shop;
    await goTo('#/till?tab=accountant');
    await page.getByRole('button', { name: 'Save journal' }).waitFor();
    const [download] = await Promise.all([page.waitForEvent('download'), keys.pressOn('Save journal')]);
    expect(download.suggestedFilename()).toMatch(/^journal-\d{4}-01-01-\d{4}-\d\d-\d\d\.csv$/);
  });

  it('raised no console errors', () => expect(shop.complaints).toEqual([]));
});

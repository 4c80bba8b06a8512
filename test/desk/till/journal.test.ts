/** The accountant's files, read by a spreadsheet engine and held against the till to the cent. */
import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { parseCsv, sheetOf } from '../../replay/spreadsheet.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { seenIn } from './seen-in.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

const DAY = 24 * 3600;
const SPAN = { from: '2026-10-01', to: '2026-11-30' };

async function fileOf(shop: FreshDesk, input: CallInput<'till.exportJournal'>): Promise<string> {
  const { id } = await shop.call('till.exportJournal', input);
  let bytes = Buffer.alloc(0);
  for (let last = false; !last;) {
    const piece = await shop.call('export.getPiece', { id, from: bytes.length });
    bytes = Buffer.concat([bytes, Buffer.from(piece.base64, 'base64')]);
    ({ last } = piece);
  }
  return bytes.toString('utf8');
}

/** Three animals, October and November: a bill voided and made again, a deposit, checks, a refund, a voided payment. */
async function season(): Promise<{ shop: FreshDesk; cashMinor: number }> {
  const shop = await pricedShop([
    priced('cut', 'hanging', { label: 'Cut and wrap', unit: 'lb', amountMinor: 95, taxRate: 0.06 }),
    priced('skin', 'animal', { label: '=Skinning', amountMinor: 3500 }),
  ]);
  const pay = (animalId: number, kind: 'deposit' | 'payment' | 'refund', method: string, typed: string) =>
    shop.call('bills.pay', { animalId, kind, method, typed, reference: method === 'check' ? '1042' : '', by: 'MK', confirmed: true }); // prettier-ignore
  let cashMinor = 0;
  const closeDay = async (): Promise<void> => {
    const till = await shop.call('till.get', {});
    const { day, currency, expectedMinor, floatMinor, cashMinor: cash } = till;
    const counted = { total: (expectedMinor / 100).toFixed(2) };
    if (expectedMinor >= 0)
      await shop.call('till.close', {
        day,
        currency,
        expectedMinor,
        seen: seenIn(till),
        counted,
        note: '',
        by: 'MK',
      });
    cashMinor += cash;
    expect(floatMinor).toBe(20_000);
  };
  await shop.call('till.setFloat', { typed: '200' });
  const [first, second, third] = [await takeIn(shop), await takeIn(shop), await takeIn(shop)];
  await pay(first, 'deposit', 'cash', '50');
  const wrong = await shop.call('bills.create', { animalId: first, confirmed: true });
  await closeDay();
  // The next day the bill is voided and made again, and a payment typed twice is voided.
  shop.wait(DAY);
  await shop.call('bills.void', { billId: wrong.id, reason: 'too early' });
  await shop.call('bills.create', { animalId: first, confirmed: true });
  await shop.call('bills.create', { animalId: second, confirmed: true });
  await pay(first, 'payment', 'check', '387.80');
  const twice = await pay(second, 'payment', 'cash', '100.01');
  await pay(second, 'payment', 'cash', '100.01');
  await shop.call('bills.voidPayment', { paymentId: twice.id, reason: 'typed twice' });
  await closeDay();
  // November.
  shop.wait(25 * DAY);
  await shop.call('bills.create', { animalId: third, confirmed: true });
  await pay(third, 'payment', 'card', '450');
  await pay(third, 'refund', 'cash', '12.20');
  await closeDay();
  return { shop, cashMinor };
}

describe('the journal', () => {
  it('has one line for each line of a bill and each payment, and sums to the till to the cent', async () => {
    const { shop, cashMinor } = await season();
    const { rows, ask } = sheetOf(await fileOf(shop, { what: 'journal', ...SPAN }));
    expect(rows[0]).toEqual([
      'date', 'type', 'number', 'hunter', 'ticket', 'description', 'net', 'tax_rate', 'tax', 'payment', 'method', 'currency',
    ]); // prettier-ignore
    // A bill: 400 lb × $0.95 = $380.00, tax 6 % $22.80; skinning $35.00: $437.80. Three of them stand.
    expect(ask('=SUM(G2:G99)')).toBe(3 * 41_500);
    expect(ask('=SUM(I2:I99)')).toBe(3 * 2280);
    // Paid in: 50 + 387.80 + 100.01 + 450 − 12.20.
    expect(ask('=SUM(J2:J99)')).toBe(97_561);
    // Cash: 50 + 100.01 − 12.20 = 137.81.
    expect(cashMinor).toBe(13_781);
    expect(ask('=SUMIF(K2:K99,"cash",J2:J99)')).toBe(cashMinor);
    for (const [method, minor] of [
      ['check', 38_780],
      ['card', 45_000],
    ] as const)
      // prettier-ignore
      expect(ask(`=SUMIF(K2:K99,"${method}",J2:J99)`), method).toBe(minor);
  });

  it('shows a voided bill as its entry and, on the day of the void, its reversal', async () => {
    const { shop } = await season();
    const { rows } = sheetOf(await fileOf(shop, { what: 'journal', ...SPAN }));
    const ofFirst = rows.filter(([, type, number]) => type?.startsWith('bill') && number === '1');
    expect(ofFirst.map(([date, type, , , , description, net, rate, tax]) => [date, type, description, net, rate, tax])).toEqual([
      ['2026-10-10', 'bill', 'Cut and wrap', '380.00', '0.06', '22.80'],
      ['2026-10-10', 'bill', "'=Skinning", '35.00', '0', '0.00'],
      ['2026-10-11', 'bill void', 'Cut and wrap; too early', '-380.00', '0.06', '-22.80'],
      ['2026-10-11', 'bill void', "'=Skinning; too early", '-35.00', '0', '0.00'],
    ]); // prettier-ignore
  });

  it('holds free lines and discounts, so that a bill’s lines are its total', async () => {
    const shop = await pricedShop([
      priced('cut', 'hanging', { label: 'Cut and wrap', unit: 'lb', amountMinor: 95, taxRate: 0.06 }),
      priced('skin', 'animal', { label: 'Skinning', amountMinor: 3500 }),
    ]);
    const animalId = await takeIn(shop);
    const adjust = (adjustment: CallInput<'bills.adjust'>['adjustment']) =>
      shop.call('bills.adjust', { animalId, adjustment, by: 'MK' });
    await adjust({
      kind: 'free line',
      label: 'Vacuum bags',
      amountMinor: 1200,
      taxRate: 0.08,
      reason: 'asked for',
    });
    await adjust({ kind: 'amount off', amountMinor: 1000, reason: 'late' });
    await shop.call('bills.create', { animalId, confirmed: true });
    const { bill } = await shop.call('bills.get', { animalId });
    const { rows, ask } = sheetOf(await fileOf(shop, { what: 'journal', ...SPAN }));
    // 380 + 35 + 12 − 10.
    expect(ask('=SUM(G2:G99)')).toBe(41_700);
    expect(ask('=SUM(G2:G99)+SUM(I2:I99)')).toBe(bill?.totalMinor);
    expect(rows.slice(1).map((row) => row[7])).toEqual(['0.06', '0', '0.08', '']);
  });

  it('taxes each free line at its own rate, however alike they are called, also one that a quote promised', async () => {
    const shop = await pricedShop([priced('cut', 'hanging', { label: 'Cut and wrap', unit: 'lb', amountMinor: 95, taxRate: 0.06 })]);
    const bags = (taxRate: number, amountMinor: number) =>
      ({ kind: 'free line', label: 'Bags', amountMinor, taxRate, reason: 'asked for' }) as const;
    const { id: quoteId } = await shop.call('quotes.save', {
      species: 'elk', brought: 'skinned', parts: [], stage: 'hanging', typed: '400', hunterName: 'Dana Whitlock',
      instructions: { cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 454, extras: [], note: '' },
      adjustments: [{ kind: 'amount off', amountMinor: 100, reason: 'early' }, bags(0.04, 300)],
    });
    const animalId = await takeIn(shop, { quoteId });
    await shop.call('bills.adjust', { animalId, adjustment: bags(0.08, 1200), by: 'MK' });
    const { id } = await shop.call('bills.adjust', { animalId, adjustment: bags(0.02, 700), by: 'MK' });
    await shop.call('bills.voidAdjustment', { adjustmentId: id, reason: 'none left', by: 'MK' });
    await shop.call('bills.create', { animalId, confirmed: true });
    const { rows } = sheetOf(await fileOf(shop, { what: 'journal', ...SPAN }));
    expect(rows.slice(1).map(([, , , , , what, net, rate]) => [what, net, rate])).toEqual([
      ['Cut and wrap', '380.00', '0.06'], ['Bags', '3.00', '0.04'], ['Bags', '12.00', '0.08'], ['Discount: early', '-1.00', ''],
    ]);
  }); // prettier-ignore

  it('says the rate of a discount that is of one rate alone, and of each percentage by what it is of', async () => {
    const shop = await freshDesk();
    const [large, small] = [await takeIn(shop, {}, '400'), await takeIn(shop, {}, '300')];
    await shop.call('prices.save', { name: 'Plain', validFrom: '2026-09-01', lines: [
      priced('cut', 'hanging', { label: 'Cut', unit: 'lb', amountMinor: 95, taxRate: 0.06 }),
      priced('skin', 'animal', { label: 'Skinning', amountMinor: 3500, taxRate: 0.06 }),
      priced('early', 'percent', { label: 'Early bird', rate: -0.1 }),
    ] });
    const off = { kind: 'amount off', amountMinor: 1000, reason: 'late' } as const;
    await shop.call('bills.adjust', { animalId: large, adjustment: off });
    await shop.call('bills.create', { animalId: large, confirmed: true });
    await shop.call('prices.save', { name: 'Least', validFrom: '2026-10-01', lines: [
      priced('cut', 'hanging', { label: 'Cut', unit: 'lb', amountMinor: 1, taxRate: 0.06 }),
      priced('early', 'percent', { label: 'Early bird', rate: -0.1 }),
      priced('least', 'minimum', { label: 'Smallest charge', amountMinor: 50_000, taxRate: 0 }),
    ] });
    await shop.call('bills.adjust', { animalId: small, adjustment: off });
    await shop.call('bills.create', { animalId: small, confirmed: true });
    const { rows } = sheetOf(await fileOf(shop, { what: 'journal', ...SPAN }));
    expect(rows.slice(1).map(([, , number, , , what, , rate]) => [number, what, rate])).toEqual([
      ['1', 'Cut', '0.06'], ['1', 'Skinning', '0.06'], ['1', 'Early bird', '0.06'], ['1', 'Discount: late', '0.06'],
      // The smallest charge is taxed otherwise, and the discount is of that too; the percentage is not.
      ['2', 'Cut', '0.06'], ['2', 'Early bird', '0.06'], ['2', 'Smallest charge', '0'], ['2', 'Discount: late', ''],
    ]);
    const summary = sheetOf(await fileOf(shop, { what: 'summary', ...SPAN })).rows.filter(([, section]) => section === 'tax');
    expect(summary.map(([, , item]) => item)).toEqual(['0', '0.06', 'mixed']);
  }); // prettier-ignore

  it('takes any span, and says so where its ends are swapped', async () => {
    const { shop } = await season();
    const { ask } = sheetOf(await fileOf(shop, { what: 'journal', from: '2026-11-01', to: '2026-11-30' }));
    expect(ask('=SUM(J2:J99)')).toBe(43_780);
    expect(
      await shop.problem('till.exportJournal', { what: 'journal', from: '2026-11-02', to: '2026-11-01' }),
    ).toMatchObject({ code: 'journal.span' });
  });
});

describe('the monthly summary', () => {
  it('says services, tax by rate, payments and refunds by method, voids, and what is open', async () => {
    const { shop } = await season();
    const { rows } = sheetOf(await fileOf(shop, { what: 'summary', ...SPAN }));
    const lines = rows.slice(1).map(([month, section, item, net, tax, amount]) => [month, section, item, net, tax, amount]); // prettier-ignore
    expect(lines).toEqual([
      ['2026-10', 'service', "'=Skinning", '70.00', '0.00', '70.00'],
      ['2026-10', 'service', 'Cut and wrap', '760.00', '45.60', '805.60'],
      ['2026-10', 'tax', '0', '70.00', '0.00', '70.00'],
      ['2026-10', 'tax', '0.06', '760.00', '45.60', '805.60'],
      ['2026-10', 'payments', 'cash', '', '', '150.01'],
      ['2026-10', 'payments', 'check', '', '', '387.80'],
      ['2026-10', 'voided bills', '', '-415.00', '-22.80', '-437.80'],
      ['2026-10', 'voided payments', 'cash', '', '', '-100.01'],
      // Billed 2 × 437.80 = 875.60, paid 537.81.
      ['2026-10', 'open balance', '', '', '', '337.79'],
      ['2026-11', 'service', "'=Skinning", '35.00', '0.00', '35.00'],
      ['2026-11', 'service', 'Cut and wrap', '380.00', '22.80', '402.80'],
      ['2026-11', 'tax', '0', '35.00', '0.00', '35.00'],
      ['2026-11', 'tax', '0.06', '380.00', '22.80', '402.80'],
      ['2026-11', 'payments', 'card', '', '', '450.00'],
      ['2026-11', 'refunds', 'cash', '', '', '-12.20'],
      // 337.79 + 437.80 − 437.80.
      ['2026-11', 'open balance', '', '', '', '337.79'],
    ]);
  });

  it('begins with what was open before', async () => {
    const { shop } = await season();
    const { rows } = sheetOf(await fileOf(shop, { what: 'summary', from: '2026-11-01', to: '2026-11-30' }));
    expect(rows.at(-1)?.slice(0, 6)).toEqual(['2026-11', 'open balance', '', '', '', '337.79']);
  });
});

it('the layout names every column of both files', async () => {
  const { shop } = await season();
  const layout = await fileOf(shop, { what: 'layout', ...SPAN });
  for (const what of ['journal', 'summary'] as const)
    for (const column of parseCsv(await fileOf(shop, { what, ...SPAN }))[0] ?? [])
      expect(layout, column).toContain(`  ${column}: `);
});

it('the layout speaks the language of the window that asks, and leaves the columns as they are', async () => {
  const { shop } = await season();
  const layout = await fileOf(shop, { what: 'layout', ...SPAN, language: 'qps' });
  expect(layout).toMatch(/^ {2}tax_rate: \[áá/m);
  expect(await fileOf(shop, { what: 'layout', ...SPAN, language: 'en-CA' })).toContain('cash, cheque');
  expect(await fileOf(shop, { what: 'layout', ...SPAN })).toContain('cash, check');
});

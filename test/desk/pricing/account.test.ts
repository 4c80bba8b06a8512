/** One account, one currency, and never more given back than was taken. */
import { describe, expect, it } from 'vitest';
import { moneyOf } from '../../../src/ui/books/record-cells.ts';
import { problemMessage } from '../../../src/ui/texts/problem-message.ts';
import { stateOf } from '../../../src/ui/bill/bill-state.ts';
import { historySentence } from '../../../src/ui/record/history-words.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LINE = {
  code: 'cut', label: 'Cutting', basis: 'animal', amountMinor: 9500, rate: null, unit: null, species: null, brought: null,
  fatSource: null, taxRate: 0,
} as const; // prettier-ignore
const PRICES = { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE] } as const;

async function priced() {
  const shop = await freshDesk();
  await shop.call('prices.save', { ...PRICES, lines: [...PRICES.lines] });
  return shop;
}
const pay = (shop: FreshDesk, animalId: number, kind: 'deposit' | 'payment' | 'refund', typed: string) =>
  shop.call('bills.pay', { animalId, kind, method: 'cash', typed });
const toEuros = { changes: { currency: 'EUR' } };

describe('the currency of the shop', () => {
  it('does not change under an open bill or a deposit, and changes once every account is settled', async () => {
    const shop = await priced();
    const animalId = await takeIn(shop);
    const deposit = await pay(shop, animalId, 'deposit', '20');
    const refused = {
      kind: 'refused',
      code: 'currency.accounts-open',
      with: { currency: 'USD', count: 1, tickets: '26-0001' },
    };
    expect(await shop.problem('shop.saveSettings', toEuros)).toMatchObject(refused);
    await shop.call('bills.create', { animalId, confirmed: true });
    expect(await shop.problem('shop.saveSettings', toEuros)).toMatchObject(refused);
    expect(
      await shop.problem('shop.setUp', { shopName: 'Again', unit: 'lb', currency: 'EUR' }),
    ).toMatchObject(refused);
    await pay(shop, animalId, 'payment', '75');
    await shop.call('shop.saveSettings', toEuros);
    // What was paid stays in its own money, also when it is given back.
    const { id } = await pay(shop, animalId, 'refund', '75');
    expect((await shop.call('bills.get', { animalId })).paidIn).toBe('USD');
    expect(await shop.problem('shop.saveSettings', { changes: { currency: 'CAD' } })).toMatchObject(refused);
    await shop.call('bills.voidPayment', { paymentId: id, reason: 'not given' });
    expect(deposit.id).toBe(1);
    shop.desk.close();
  });

  it('counts a deposit that was taken in the new one', async () => {
    const shop = await priced();
    await shop.call('shop.saveSettings', toEuros);
    const animalId = await takeIn(shop);
    await pay(shop, animalId, 'deposit', '20');
    expect(await shop.problem('shop.saveSettings', { changes: { currency: 'USD' } })).toMatchObject({
      code: 'currency.accounts-open',
    });
    shop.desk.close();
  });

  it('is that of every new bill: prices in another make none, and money paid in another is given back first', async () => {
    const shop = await priced();
    const animalId = await takeIn(shop);
    await shop.call('bills.create', { animalId, confirmed: true });
    await pay(shop, animalId, 'payment', '95');
    await shop.call('shop.saveSettings', toEuros);
    const other = await takeIn(shop, { hunter: { name: 'Cy Marsh' } });
    expect(await shop.problem('bills.create', { animalId: other, confirmed: true })).toMatchObject({
      code: 'bill.other-currency', with: { currency: 'USD', shop: 'EUR' },
    }); // prettier-ignore
    await shop.call('prices.save', { ...PRICES, lines: [...PRICES.lines], validFrom: '2026-10-01' });
    const { bill } = await shop.call('bills.get', { animalId });
    await shop.call('bills.void', { billId: bill?.id ?? 0, reason: 'another price' });
    expect(await shop.problem('bills.create', { animalId, confirmed: true })).toMatchObject({
      code: 'bill.paid-in-other-currency', with: { ticket: '26-0001', paidIn: 'USD', currency: 'EUR' },
    }); // prettier-ignore
    await pay(shop, animalId, 'refund', '95');
    await shop.call('bills.create', { animalId, confirmed: true });
    await pay(shop, animalId, 'payment', '95');
    expect(await shop.call('bills.get', { animalId })).toMatchObject({
      currency: 'EUR',
      paidIn: 'EUR',
      dueMinor: 0,
    });
    shop.desk.close();
  });
});

describe('a deposit that was given back', () => {
  it('is not voided before its refund is', async () => {
    const shop = await priced();
    const animalId = await takeIn(shop);
    const deposit = await pay(shop, animalId, 'deposit', '50');
    const refund = await pay(shop, animalId, 'refund', '50');
    const voided = { paymentId: deposit.id, reason: 'another animal' };
    expect(await shop.problem('bills.voidPayment', voided)).toMatchObject({
      kind: 'refused', code: 'payment.given-back', with: { amountMinor: 5000, paidMinor: 0 },
    }); // prettier-ignore
    await shop.call('bills.voidPayment', { paymentId: refund.id, reason: 'another animal' });
    await shop.call('bills.voidPayment', voided);
    expect((await shop.call('bills.get', { animalId })).paidMinor).toBe(0);
    shop.desk.close();
  });
});

describe('a bill from before the shop changed its currency', () => {
  it('is told in its own money, with its payments, in whatever place', async () => {
    const shop = await priced();
    const animalId = await takeIn(shop);
    const { id: billId } = await shop.call('bills.create', { animalId, confirmed: true });
    await shop.call('bills.void', { billId, reason: 'wrong animal' });
    await shop.call('bills.create', { animalId, confirmed: true });
    await pay(shop, animalId, 'payment', '95');
    await shop.call('shop.saveSettings', toEuros);
    await shop.call('prices.save', { ...PRICES, lines: [...PRICES.lines] });

    const look = await shop.call('bills.get', { animalId });
    expect(look).toMatchObject({ currency: 'USD', paidIn: 'USD', dueMinor: 0, paidMinor: 9500 });
    expect(look.draft?.currency).toBe('EUR');
    expect([look.bill, ...look.voidedBills, ...look.payments].map((one) => one?.currency)).toEqual([
      'USD', 'USD', 'USD',
    ]); // prettier-ignore
    // Words of an English shop that counts in euros: none of them stands at a dollar.
    const format = makeFormat({ unit: 'lb', step: 0.05, locale: 'en-US', currency: 'EUR' });
    const page = await shop.call('animals.get', { id: animalId });
    expect(stateOf({ ...page.bill, dueMinor: 1250 }, format)).toBe('Bill 2: $12.50 due.');
    const history = await shop.call('animals.getHistory', { id: animalId });
    const told = history
      .map((entry) => historySentence(entry, format))
      .filter((said) => /\d\.\d\d/.test(said));
    expect(told.filter((said) => said.includes('$95.00'))).toHaveLength(4);
    expect(told.join()).not.toContain('€');
    const over = await shop.problem('bills.pay', { animalId, kind: 'payment', method: 'cash', typed: '5' });
    expect(problemMessage(over, format)).toContain('$5.00 is more than the balance due of $0.00');
    const rows = await shop.call('records.list', {});
    expect(rows.map((row) => moneyOf({ ...row, money: 'open', dueMinor: 9500 }, format))).toEqual([
      expect.stringContaining('$95.00'),
    ]);
    shop.desk.close();
  });

  it('leaves a deposit to be given back, not a difference of two currencies', async () => {
    const shop = await priced();
    const animalId = await takeIn(shop);
    await pay(shop, animalId, 'deposit', '40');
    const refund = await pay(shop, animalId, 'refund', '40');
    await shop.call('shop.saveSettings', toEuros);
    await shop.call('prices.save', { ...PRICES, lines: [...PRICES.lines] });
    expect(await shop.call('bills.get', { animalId })).toMatchObject({ currency: 'EUR', dueMinor: 9500 });
    await shop.call('bills.voidPayment', { paymentId: refund.id, reason: 'not given' });
    expect(await shop.call('bills.get', { animalId })).toMatchObject({ currency: 'USD', dueMinor: -4000 });
    shop.desk.close();
  });
});

describe('a payment from before the shop changed its currency', () => {
  it('is not voided while the account goes on in other money, in which it would count', async () => {
    const shop = await priced();
    const animalId = await takeIn(shop);
    const deposit = await pay(shop, animalId, 'deposit', '40');
    const refund = await pay(shop, animalId, 'refund', '40');
    await shop.call('shop.saveSettings', toEuros);
    await shop.call('prices.save', { ...PRICES, lines: [...PRICES.lines] });
    const { id: billId } = await shop.call('bills.create', { animalId, confirmed: true });
    const refused = {
      kind: 'refused',
      code: 'payment.other-currency',
      with: { currency: 'USD', now: 'EUR' },
    };
    for (const { id: paymentId } of [refund, deposit])
      expect(await shop.problem('bills.voidPayment', { paymentId, reason: 'miscounted' })).toMatchObject(
        refused,
      );
    expect((await shop.call('bills.get', { animalId })).dueMinor).toBe(9500);

    await shop.call('bills.void', { billId, reason: 'first the refund' });
    await shop.call('bills.voidPayment', { paymentId: refund.id, reason: 'miscounted' });
    expect(await shop.problem('bills.create', { animalId, confirmed: true })).toMatchObject({
      code: 'bill.paid-in-other-currency',
    });
    shop.desk.close();
  });
});

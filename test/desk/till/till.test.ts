/** A day's till, counted by hand: what comes in, what is voided, what comes after the closing. */
import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { takeIn, type FreshDesk } from '../fresh-desk.ts';
import { seenIn } from './seen-in.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

const DAY = 24 * 3600;
type Pay = CallInput<'bills.pay'>;

async function shopWithAnimal(): Promise<{ shop: FreshDesk; animalId: number }> {
  const shop = await pricedShop([priced('cut', 'hanging', { unit: 'lb', amountMinor: 100 })]);
  return { shop, animalId: await takeIn(shop) };
}
const payIn = (shop: FreshDesk, animalId: number) => (kind: Pay['kind'], method: string, typed: string, by: string) =>
  shop.call('bills.pay', { animalId, kind, method, typed, by }); // prettier-ignore

async function closeNow(shop: FreshDesk, total: string, note = '', day?: string) {
  const till = await shop.call('till.get', day ? { day } : {});
  return shop.call('till.close', {
    day: till.day, currency: till.currency, expectedMinor: till.expectedMinor, seen: seenIn(till), counted: { total }, note, by: 'MK',
  }); // prettier-ignore
}

describe('the till of a day', () => {
  it('sums payments by method and person, and expects the float and the cash', async () => {
    const { shop, animalId } = await shopWithAnimal();
    const pay = payIn(shop, animalId);
    await shop.call('till.setFloat', { typed: '150', by: 'MK' });
    await pay('deposit', 'cash', '50', 'MK');
    await pay('payment', 'cash', '20.25', 'RB');
    await pay('payment', 'check', '100', 'MK');
    await pay('refund', 'cash', '10', 'RB');
    const { id: paymentId } = await pay('payment', 'cash', '7', 'MK');
    await shop.call('bills.voidPayment', { paymentId, reason: 'typed twice', by: 'RB' });

    const till = await shop.call('till.get', {});
    // Cash: 50 + 20.25 − 10 + 7 − 7 = 60.25; with the float of 150: 210.25.
    expect(till).toMatchObject({
      cashMinor: 6025,
      floatMinor: 15_000,
      expectedMinor: 21_025,
      totalMinor: 16_025,
    });
    const figures = till.sums.map((sum) => [
      sum.method, sum.by, sum.paidMinor, sum.refundedMinor, sum.voidedMinor, sum.totalMinor,
    ]); // prettier-ignore
    expect(figures).toEqual([
      ['cash', null, 7725, -1000, -700, 6025],
      ['cash', 'MK', 5700, 0, 0, 5700],
      ['cash', 'RB', 2025, -1000, -700, 325],
      ['check', null, 10_000, 0, 0, 10_000],
      ['check', 'MK', 10_000, 0, 0, 10_000],
    ]);
  });

  it('is closed with initials, a number, and a note where it is over or short', async () => {
    const { shop, animalId } = await shopWithAnimal();
    await payIn(shop, animalId)('deposit', 'cash', '50', 'MK');
    const close = {
      day: '2026-10-10', currency: 'USD', expectedMinor: 5000, seen: [{ method: 'cash', count: 1, totalMinor: 5000 }],
      counted: { total: '49.50' }, note: '', by: 'MK',
    }; // prettier-ignore
    expect(await shop.problem('till.close', { ...close, by: '' })).toMatchObject({ code: 'till.initials' });
    expect(await shop.problem('till.close', close)).toMatchObject({ code: 'till.note', field: 'note' });
    expect(await shop.problem('till.close', { ...close, expectedMinor: 4900 })).toMatchObject({
      kind: 'conflict',
      code: 'till.changed',
    });
    const note = 'counted twice';
    expect(await shop.call('till.close', { ...close, note })).toMatchObject({ number: 1 });
    const { closing } = await shop.call('till.get', {});
    expect(closing).toMatchObject({ number: 1, countedMinor: 4950, overMinor: -50, note, by: 'MK' });
    expect(await shop.problem('till.close', { ...close, note })).toMatchObject({ code: 'till.closed' });
    expect(await shop.problem('till.setFloat', { typed: '1' })).toMatchObject({ code: 'till.closed' });
    expect(await shop.problem('till.close', { ...close, day: '2026-10-11', note })).toMatchObject({
      code: 'till.future',
    });
  });

  it('is not closed over what came meanwhile by another method, nor over what came and went', async () => {
    const { shop, animalId } = await shopWithAnimal();
    const pay = payIn(shop, animalId);
    await pay('deposit', 'cash', '50', 'MK');
    await pay('deposit', 'card', '20', 'MK');
    const till = await shop.call('till.get', {});
    const close = {
      day: till.day, currency: 'USD', expectedMinor: 5000, seen: seenIn(till), counted: { total: '50' }, note: '', by: 'MK',
    }; // prettier-ignore
    const { id: paymentId } = await pay('payment', 'card', '30', 'RB');
    expect(await shop.problem('till.close', close)).toMatchObject({
      kind: 'conflict', code: 'till.changed-method', with: { method: 'card', totalMinor: 5000, seenMinor: 2000, currency: 'USD' },
    }); // prettier-ignore
    await shop.call('bills.voidPayment', { paymentId, reason: 'another animal', by: 'RB' });
    expect(await shop.problem('till.close', close)).toMatchObject({ code: 'till.changed-method' });
    await pay('payment', 'check', '10', 'RB');
    expect(await shop.problem('till.close', { ...close, seen: close.seen.slice(0, 1) })).toMatchObject({ code: 'till.changed-method' });
    const seen = seenIn(await shop.call('till.get', {}));
    expect(seen.map(({ method, count }) => [method, count])).toEqual([['cash', 1], ['card', 3], ['check', 1]]);
    expect(await shop.call('till.close', { ...close, seen })).toMatchObject({ number: 1 });
  }); // prettier-ignore

  it('adds up the denominations that were counted', async () => {
    const { shop, animalId } = await shopWithAnimal();
    await payIn(shop, animalId)('deposit', 'cash', '87.41', 'MK');
    // 4 × 20 + 1 × 5 + 2 × 1 + 1 × 0.25 + 1 × 0.10 + 1 × 0.05 + 1 × 0.01
    const pieces: [number, number][] = [[2000, 4], [500, 1], [100, 2], [25, 1], [10, 1], [5, 1], [1, 1]]; // prettier-ignore
    await shop.call('till.close', {
      day: '2026-10-10', currency: 'USD', expectedMinor: 8741, seen: [{ method: 'cash', count: 1, totalMinor: 8741 }],
      counted: { pieces }, note: '', by: 'MK',
    }); // prettier-ignore
    expect((await shop.call('till.get', {})).closing).toMatchObject({
      countedMinor: 8741,
      overMinor: 0,
      counted: { pieces },
    });
  });

  it('stays as it was closed: what comes later is shown after closing and counts in the next till', async () => {
    const { shop, animalId } = await shopWithAnimal();
    const pay = payIn(shop, animalId);
    const { id: paymentId } = await pay('deposit', 'cash', '50', 'MK');
    await closeNow(shop, '50');
    const closed = await shop.call('till.get', {});
    shop.wait(60);
    await pay('payment', 'cash', '30', 'RB');
    await shop.call('bills.voidPayment', { paymentId, reason: 'another animal', by: 'RB' });

    const after = await shop.call('till.get', {});
    for (const key of ['entries', 'sums', 'cashMinor', 'expectedMinor', 'closing'] as const)
      expect(after[key], key).toEqual(closed[key]);
    expect(after.afterClosing.map(({ what, minor }) => [what, minor])).toEqual([
      ['payment', 3000],
      ['void', -5000],
    ]);

    // Two days later: nobody closed the day between, on which nothing was paid.
    shop.wait(2 * DAY);
    await pay('payment', 'cash', '5', 'MK');
    const next = await shop.call('till.get', {});
    expect(next.carried.map(({ minor, day }) => [minor, day])).toEqual([
      [3000, '2026-10-10'],
      [-5000, '2026-10-10'],
    ]);
    expect(next).toMatchObject({ cashMinor: -1500, openDays: [] });
    await closeNow(shop, '0', 'paid back by bank');
    expect((await shop.call('till.get', { day: '2026-10-10' })).afterClosing).toEqual([]);
    expect((await shop.call('till.get', {})).carried).toHaveLength(2);
  });

  it('counts late cash once where the float was counted with it in the drawer', async () => {
    const { shop, animalId } = await shopWithAnimal();
    const pay = payIn(shop, animalId);
    await shop.call('till.setFloat', { typed: '100', by: 'MK' });
    await closeNow(shop, '100');
    shop.wait(3600);
    await pay('payment', 'cash', '30', 'RB');
    await pay('payment', 'card', '8', 'RB');
    shop.wait(16 * 3600);
    // The next morning, the float is still that of the day before: the late cash comes on top.
    expect(await shop.call('till.get', {})).toMatchObject({ floatMinor: 10_000, inFloatMinor: 0, cashMinor: 3000, expectedMinor: 13_000 });
    // Counted: $130 with the late $30 in it.
    await shop.call('till.setFloat', { typed: '130', by: 'MK' });
    await pay('payment', 'cash', '5', 'MK');
    const open = await shop.call('till.get', {});
    expect(open).toMatchObject({ floatMinor: 13_000, inFloatMinor: 3000, cashMinor: 500, expectedMinor: 13_500 });
    expect(open.carried.map(({ minor }) => minor)).toEqual([3000, 800]);
    await closeNow(shop, '135');
    const closed = await shop.call('till.get', {});
    for (const key of ['sums', 'entries', 'floatMinor', 'inFloatMinor', 'cashMinor', 'expectedMinor', 'totalMinor'] as const)
      expect(closed[key], key).toEqual(open[key]);
  }); // prettier-ignore

  it('is opened again by voiding its closing, and the next closing has the next number', async () => {
    const { shop, animalId } = await shopWithAnimal();
    await payIn(shop, animalId)('deposit', 'cash', '50', 'MK');
    const { id } = await closeNow(shop, '40', 'ten missing');
    await shop.call('till.void', { id, reason: 'a note stuck', by: 'RB' });
    expect(await shop.call('till.get', {})).toMatchObject({
      closing: null,
      voidedClosings: [{ number: 1, reason: 'a note stuck', by: 'RB' }],
      entries: [{ minor: 5000 }],
    });
    expect(await closeNow(shop, '50')).toMatchObject({ number: 2 });
    expect(await shop.problem('till.void', { id, reason: 'again' })).toMatchObject({ code: 'till.voided' });
  });

  it('counts a void on the day of the void, and names earlier days that were not closed', async () => {
    const { shop, animalId } = await shopWithAnimal();
    const pay = payIn(shop, animalId);
    const { id: paymentId } = await pay('deposit', 'cash', '50', 'MK');
    shop.wait(DAY);
    await shop.call('bills.voidPayment', { paymentId, reason: 'bounced', by: 'MK' });
    expect(await shop.call('till.get', {})).toMatchObject({ cashMinor: -5000, openDays: ['2026-10-10'] });
    expect(await shop.call('till.get', { day: '2026-10-10' })).toMatchObject({ cashMinor: 5000 });
  });

  it('keeps currencies apart', async () => {
    const { shop, animalId } = await shopWithAnimal();
    await payIn(shop, animalId)('deposit', 'cash', '50', 'MK');
    await shop.call('bills.pay', { animalId, kind: 'refund', method: 'cash', typed: '50', by: 'MK' });
    await shop.call('shop.saveSettings', { changes: { currency: 'CAD' } });
    const other = await takeIn(shop, {}, null);
    await payIn(shop, other)('deposit', 'cash', '20', 'MK');
    expect(await shop.call('till.get', {})).toMatchObject({
      currency: 'CAD',
      cashMinor: 2000,
      currencies: ['CAD', 'USD'],
    });
    expect(await shop.call('till.get', { currency: 'USD' })).toMatchObject({ cashMinor: 0 });
  });
});

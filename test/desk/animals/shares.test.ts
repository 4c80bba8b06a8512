/** Two or more hunters on one animal: packages and bill are split exactly, payments have a payer, each takes a part. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sharersText } from '../../../src/ui/books/record-cells.ts';
import { problemMessage } from '../../../src/ui/texts/problem-message.ts';
import { makeFormat } from '../../../src/ui/texts/format.ts';
import { freshDesk, inBook, takeIn, type FreshDesk } from '../fresh-desk.ts';

const LINE = {
  code: 'cut', label: 'Cutting', basis: 'animal', amountMinor: 10001, rate: null, unit: null, species: null, brought: null,
  product: null, fatSource: null, taxRate: 0.07,
} as const; // prettier-ignore
const LB = 453.59237;
const BOB = { name: 'Bob Ray', phone: '555-0177' };

async function packed(shop: FreshDesk) {
  const id = await takeIn(shop);
  for (const [product, count, typed] of [['Steaks', 11, '40'], ['Roasts', 7, '30.5'], ['Stew', 3, '9']] as const)
    await shop.call('table.weigh', { animalId: id, stage: 'packed', part: 'package', product, count, typed, confirmed: true });
  await shop.call('animals.setStage', { id, stage: 'ready', answer: 'weighed again', confirmed: true });
  const { hunter } = await shop.call('animals.get', { id });
  return { id, owner: hunter.id };
} // prettier-ignore

async function shared(shop: FreshDesk, typed: [string, string] = ['60', '40']) {
  const { id, owner } = await packed(shop);
  const shares = [{ hunter: { id: owner }, typed: typed[0] }, { hunter: BOB, typed: typed[1] }]; // prettier-ignore
  await shop.call('shares.save', { animalId: id, basis: 'percent', shares, by: 'MK' });
  const { sharers } = await shop.call('animals.get', { id });
  return { id, owner, bob: sharers[1]?.hunterId ?? 0 };
}

const sum = (all: readonly number[]) => all.reduce((a, b) => a + b, 0);

describe('sharing an animal', () => {
  it('names every hunter on the page, in the record book and in the history', async () => {
    const shop = await freshDesk();
    const { id, owner } = await shared(shop);
    expect((await shop.call('animals.get', { id })).sharers).toMatchObject([
      { hunterId: owner, name: 'Dana Whitlock', typed: '60', basis: 'percent', share: 0.6 },
      { ...BOB, typed: '40', share: 0.4 },
    ]);
    const [row] = await shop.call('records.list', {});
    expect(row?.sharers).toMatchObject([
      { name: 'Dana Whitlock', share: 0.6 },
      { ...BOB, share: 0.4, taken: null },
    ]);
    const entry = (await shop.call('animals.getHistory', { id })).find(({ what }) => what === 'shared');
    expect(entry).toMatchObject({
      by: 'MK',
      facts: { basis: 'percent', parts: 'Dana Whitlock 60, Bob Ray 40' },
    });
    shop.desk.close();
  });

  it('says in the record book who took a part and when, though the rest is still here', async () => {
    const shop = await freshDesk();
    const { id, bob } = await shared(shop);
    await shop.call('shares.release', { id, hunterId: bob, to: 'Ray Senior', unpaidBy: 'MK' });
    const [row] = await shop.call('records.list', {});
    expect(row?.stage).toBe('ready');
    expect(row?.sharers.map(({ taken }) => taken)).toEqual([null, { to: 'Ray Senior', on: '2026-10-10' }]);
    const said =
      row && sharersText(row, makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' }));
    expect(said?.[1]).toBe('Bob Ray: 40.0%, 555-0177, picked up by Ray Senior on Sat, Oct 10');
  });

  it('takes pounds and pieces by their proportion, and one hunter alone ends it', async () => {
    const shop = await freshDesk();
    const { id, owner, bob } = await shared(shop);
    const split = (basis: 'pounds' | 'pieces', a: string, b: string) =>
      shop.call('shares.save', { animalId: id, basis, shares: [{ hunter: { id: owner }, typed: a }, { hunter: { id: bob }, typed: b }] });
    await split('pounds', '30.5', '61');
    expect((await shop.call('animals.get', { id })).sharers.map(({ share }) => share)).toEqual([1 / 3, 2 / 3]);
    await split('pieces', '3', '1');
    expect((await shop.call('animals.get', { id })).sharers.map(({ share }) => share)).toEqual([0.75, 0.25]);
    await shop.call('shares.save', { animalId: id, basis: 'percent', shares: [{ hunter: { id: owner }, typed: '' }], reason: 'Bob has his own' });
    expect((await shop.call('animals.get', { id })).sharers).toEqual([]);
    inBook(shop, ({ db }) => {
      expect(db.prepare('SELECT count(*) FROM share_split').pluck().get()).toBe(4);
      expect(() => db.prepare('UPDATE share SET amount = 1').run()).toThrow('written once');
    });
  }); // prettier-ignore

  it('refuses percents that do not make 100, a share that is none, a missing owner and one named twice', async () => {
    const shop = await freshDesk();
    const { id, owner } = await packed(shop);
    const refused = async (...shares: { hunter: object; typed: string }[]) =>
      await shop.problem('shares.save', { animalId: id, basis: 'percent', shares });
    const mine = (typed: string) => ({ hunter: { id: owner }, typed });
    const bobs = (typed: string) => ({ hunter: BOB, typed });
    expect(await refused(mine('50'), bobs('49.9'))).toMatchObject({ code: 'share.percent', with: { percent: 99.9 } });
    expect(await refused(mine('half'), bobs('50'))).toMatchObject({ code: 'share.unreadable', with: { typed: 'half' } });
    expect(await refused(mine('100'), bobs('0'))).toMatchObject({ code: 'share.unreadable' });
    expect(await refused(bobs('50'), { hunter: { name: 'Li Wei' }, typed: '50' })).toMatchObject({ code: 'share.owner', with: { name: 'Dana Whitlock' } });
    expect(await refused(mine('50'), mine('50'))).toMatchObject({ code: 'share.twice' });
    expect((await shop.call('animals.get', { id })).sharers).toEqual([]);
    expect(await shop.call('hunters.find', { text: 'Bob' })).toEqual([]);
    await shop.call('shares.save', { animalId: id, basis: 'percent', shares: [mine('33.34'), bobs('33.33'), { hunter: { name: 'Li Wei' }, typed: '33.33' }] });
    shop.desk.close();
  }); // prettier-ignore
});

describe('the details of a hunter who shares an animal', () => {
  it('stay as long as the animal is here', async () => {
    const shop = await freshDesk();
    const { bob } = await shared(shop);
    expect(await shop.problem('hunters.removeDetails', { id: bob, reason: 'asked for' })).toMatchObject({
      code: 'hunter.animal-here',
    });
    shop.desk.close();
  });
});

describe('the bill of a shared animal', () => {
  it('is one, split to the cent, with a balance for each; a payment without a name is the first hunter’s', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE] });
    const { id, owner, bob } = await shared(shop, ['50', '50']);
    await shop.call('bills.pay', { animalId: id, kind: 'deposit', method: 'cash', typed: '20' });
    await shop.call('bills.create', { animalId: id });
    await shop.call('bills.pay', { animalId: id, kind: 'payment', method: 'cash', typed: '53.50', hunterId: bob });
    // $100.01 with 7 % tax are $107.01: $53.51 and $53.50.
    const view = await shop.call('bills.get', { animalId: id });
    expect(view.shares).toMatchObject([
      { hunterId: owner, totalMinor: 5351, taxMinor: 350, paidMinor: 2000, dueMinor: 3351 },
      { hunterId: bob, totalMinor: 5350, taxMinor: 350, paidMinor: 5350, dueMinor: 0 },
    ]);
    expect(view.dueMinor).toBe(3351);
    expect(view.payments.map(({ payer }) => payer)).toEqual([null, { id: bob, name: 'Bob Ray' }]);
    const stranger = await shop.call('hunters.save', { name: 'Li Wei' });
    expect(
      await shop.problem('bills.pay', { animalId: id, kind: 'payment', method: 'cash', typed: '1', hunterId: stranger.id }),
    ).toMatchObject({ code: 'payment.not-sharer' });
    shop.desk.close();
  }); // prettier-ignore

  it('counts a payment without a name for the owner, wherever the owner is in the list', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE] });
    const { id, owner, bob } = await shared(shop);
    const shares = [{ hunter: { id: bob }, typed: '50' }, { hunter: { id: owner }, typed: '50' }];
    await shop.call('shares.save', { animalId: id, basis: 'percent', shares });
    await shop.call('bills.pay', { animalId: id, kind: 'deposit', method: 'cash', typed: '20' });
    expect((await shop.call('bills.get', { animalId: id })).shares).toMatchObject([
      { hunterId: bob, paidMinor: 0 },
      { hunterId: owner, paidMinor: 2000 },
    ]);
    shop.desk.close();
  }); // prettier-ignore

  it('gives nobody more back than that hunter paid', async () => {
    const shop = await freshDesk();
    const { id, owner, bob } = await shared(shop);
    const pay = (kind: 'payment' | 'refund', typed: string, hunterId: number) => ({ animalId: id, kind, method: 'cash', typed, hunterId });
    await shop.call('bills.pay', pay('payment', '30', owner));
    await shop.call('bills.pay', pay('payment', '10', bob));
    const problem = await shop.problem('bills.pay', pay('refund', '10.01', bob));
    expect(problem).toMatchObject({ kind: 'refused', code: 'payment.refund', with: { paidMinor: 1000, amountMinor: 1001, payer: 'Bob Ray' } });
    const format = makeFormat({ unit: 'lb', step: 0.02, locale: 'en-US', currency: 'USD' });
    expect(problemMessage(problem, format)).toBe('Bob Ray paid only $10.00, so $10.01 cannot be refunded. Type less.');
    const { id: paymentId } = await shop.call('bills.pay', pay('refund', '10', bob));
    await shop.call('bills.voidPayment', { paymentId, reason: 'not given' });
    await shop.call('bills.pay', pay('refund', '5', bob));
    expect(await shop.problem('bills.restorePayment', { paymentId })).toMatchObject({ code: 'payment.refund', with: { paidMinor: 500 } });
    shop.desk.close();
  }); // prettier-ignore

  it('sums to the whole whatever the shares and the payments are', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE] });
    const { id, owner, bob } = await shared(shop);
    await shop.call('bills.create', { animalId: id });
    const pieces = fc.integer({ min: 1, max: 999 });
    const payer = fc.constantFrom(owner, bob, null);
    await fc.assert(
      fc.asyncProperty(pieces, pieces, pieces, payer, async (a, b, c, hunterId) => {
        const third = { hunter: { name: 'Li Wei' }, typed: String(c) };
        const two = [{ hunter: { id: owner }, typed: String(a) }, { hunter: { id: bob }, typed: String(b) }];
        await shop.call('shares.save', { animalId: id, basis: 'pieces', shares: c % 2 ? two : [...two, third] });
        await shop.call('bills.pay', { animalId: id, kind: 'deposit', method: 'cash', typed: '0.11', hunterId });
        const { bill, shares, paidMinor, dueMinor } = await shop.call('bills.get', { animalId: id });
        expect(sum(shares.map(({ totalMinor }) => totalMinor))).toBe(bill?.totalMinor);
        expect(sum(shares.map(({ taxMinor }) => taxMinor))).toBe(bill?.taxMinor);
        expect(sum(shares.map((one) => one.paidMinor))).toBe(paidMinor);
        expect(sum(shares.map((one) => one.dueMinor))).toBe(dueMinor);
        const [row] = await shop.call('pickup.get', {});
        expect(sum(row?.shares.map(({ packages }) => packages) ?? [])).toBe(row?.packages);
        expect(sum(row?.shares.map(({ grams }) => grams) ?? [])).toBeCloseTo(row?.grams ?? 0, 6);
      }),
      { numRuns: 25 },
    );
    shop.desk.close();
  }); // prettier-ignore
});

describe('pickup of a shared animal', () => {
  it('hands over part by part; the last one closes the animal, and each owes for itself', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE] });
    const { id, owner, bob } = await shared(shop, ['50', '50']);
    const part = { id, hunterId: bob, to: 'Bob Ray' };
    expect(await shop.problem('shares.release', part)).toMatchObject({ code: 'release.no-bill' });
    await shop.call('bills.create', { animalId: id });
    expect(await shop.problem('shares.release', part)).toMatchObject({ code: 'release.unpaid', with: { dueMinor: 5350 } });
    await shop.call('bills.pay', { animalId: id, kind: 'payment', method: 'cash', typed: '53.50', hunterId: bob });
    const before = (await shop.call('pickup.get', {}))[0]?.shares;
    expect(before?.map(({ rows }) => rows.map(({ product, count }) => [product, count]))).toEqual([
      [['Steaks', 6], ['Roasts', 3], ['Stew', 2]],
      [['Steaks', 5], ['Roasts', 4], ['Stew', 1]],
    ]);
    expect(await shop.call('shares.release', part)).toEqual({ id, last: false });
    expect((await shop.call('pickup.get', {}))[0]?.shares[1]?.taken).toMatchObject({ to: 'Bob Ray', on: '2026-10-10' });
    expect(await shop.problem('shares.release', part)).toMatchObject({ kind: 'conflict', code: 'share.gone' });
    expect(await shop.problem('shares.save', { animalId: id, basis: 'pieces', shares: [{ hunter: { id: owner }, typed: '1' }] })).toMatchObject({ code: 'share.taken' });
    await shop.call('shares.voidRelease', { id, hunterId: bob, reason: 'left it here' });
    expect(await shop.problem('shares.voidRelease', { id, hunterId: bob, reason: 'x' })).toMatchObject({ code: 'share.not-gone' });
    await shop.call('shares.release', part);
    expect(await shop.call('shares.release', { id, hunterId: owner, to: 'Dana Whitlock', unpaidBy: 'RO' })).toEqual({ id, last: true });
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'released', release: { to: 'Bob Ray, Dana Whitlock' } });
    await shop.call('animals.reopen', { id, reason: 'the wrong box' });
    expect((await shop.call('pickup.get', {}))[0]?.shares.map(({ taken }) => taken)).toEqual([null, null]);
    shop.desk.close();
  }); // prettier-ignore

  it('asks nobody for money once the bill is paid, whoever paid it', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', taxRule: 'per bill', lines: [LINE] });
    const { id, owner, bob } = await shared(shop, ['50', '50']);
    await shop.call('bills.create', { animalId: id });
    await shop.call('bills.pay', { animalId: id, kind: 'payment', method: 'cash', typed: '87.01' });
    const dues = async () => (await shop.call('pickup.get', {}))[0]?.shares.map(({ dueMinor }) => dueMinor);
    // $20 of $107.01 are open: Bob owes no more than that, though nothing was paid in his name, and Dana gets nothing back.
    expect(await dues()).toEqual([0, 2000]);
    await shop.call('bills.pay', { animalId: id, kind: 'payment', method: 'cash', typed: '20' });
    expect(await dues()).toEqual([0, 0]);
    const { shares } = await shop.call('bills.get', { animalId: id });
    expect(shares.map(({ paidMinor, dueMinor }) => [paidMinor, dueMinor])).toEqual([[10701, 0], [0, 0]]);
    await shop.call('shares.release', { id, hunterId: bob, to: 'Bob Ray' });
    await shop.call('shares.release', { id, hunterId: owner, to: 'Dana Whitlock' });
    shop.desk.close();
  }); // prettier-ignore

  it('divides what is left: without donations, and without a part that was taken', async () => {
    const shop = await freshDesk();
    await shop.call('shop.saveSettings', { changes: { donationPrograms: [{ name: 'Hunters Share', paysMinor: 0, paysUnit: 'lb' }] } });
    const { id, owner, bob } = await shared(shop, ['50', '50']);
    const gift = { id, program: 'Hunters Share', whole: false, confirmation: '', by: 'MK' };
    const look = async () => {
      const [row] = await shop.call('pickup.get', {});
      const shares = row?.shares ?? [];
      for (const one of shares) expect(sum(one.rows.map(({ grams }) => grams))).toBeCloseTo(one.grams, 6);
      return { packages: row?.packages, grams: row?.grams, counts: shares.map((one) => one.packages), each: shares.map((one) => one.grams), all: sum(shares.map((one) => one.grams)) };
    };
    // 79.5 lb in 21 packages, of which 15.9 lb are given away: a fifth, so 17 packages are left.
    await shop.call('donations.add', { ...gift, typed: '15.9' });
    const first = await look();
    expect(first).toMatchObject({ packages: 17, counts: [9, 8] });
    expect(first.all).toBeCloseTo(63.6 * LB, 6);
    expect(first.grams).toBeCloseTo(63.6 * LB, 6);
    await shop.call('shares.release', { id, hunterId: bob, to: 'Bob Ray', unpaidBy: 'RO' });
    const second = await look();
    expect(second).toMatchObject({ counts: [9, 8] });
    const dana = (first.all - (first.each[1] ?? 0)) / LB;
    // Bob’s part is gone: neither more nor less than Dana’s can be given away.
    const more = { ...gift, whole: true, typed: (dana + 0.1).toFixed(2) };
    expect(await shop.problem('donations.add', more)).toMatchObject({ code: 'donation.more' });
    await shop.call('donations.add', { ...gift, typed: '3.6' });
    const third = await look();
    // What was given after Bob took his part comes out of Dana’s alone, and nothing is lost or made.
    expect(third.each[1]).toBeCloseTo(first.each[1] ?? 0, 6);
    expect(third.all).toBeCloseTo(60 * LB, 6);
    await shop.call('donations.add', { ...gift, whole: true, typed: (dana - 3.61).toFixed(2) });
    expect(await shop.call('animals.get', { id })).toMatchObject({ stage: 'released', release: { to: 'Bob Ray, Hunters Share' } });
    expect(owner).toBeGreaterThan(0);
    shop.desk.close();
  }); // prettier-ignore

  it('gives no part away while the animal is on hold', async () => {
    const shop = await freshDesk();
    const { id, bob } = await shared(shop);
    await shop.call('animals.hold', { id, reason: 'waits for the test', sample: 'L-7' });
    const part = { id, hunterId: bob, to: 'Bob', unpaidBy: 'RO' };
    expect(await shop.problem('shares.release', part)).toMatchObject({ code: 'release.held' });
    shop.desk.close();
  });
});

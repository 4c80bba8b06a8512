/** Who owes what since when, by hand. */
import { describe, expect, it } from 'vitest';
import { takeIn, type FreshDesk } from '../fresh-desk.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

const DAY = 24 * 3600;

/** 400 lb at $1.00: a bill of $400. */
async function billed(shop: FreshDesk, name: string): Promise<number> {
  const animalId = await takeIn(shop, { hunter: { name, phone: '555-0100' } });
  await shop.call('bills.create', { animalId, confirmed: true });
  return animalId;
}
const pay = (shop: FreshDesk, animalId: number, typed: string) =>
  shop.call('bills.pay', { animalId, kind: 'payment', method: 'cash', typed, confirmed: true });

describe('open balances', () => {
  it('list who owes what since when, oldest first; what is paid in full is gone', async () => {
    const shop = await pricedShop([priced('cut', 'hanging', { unit: 'lb', amountMinor: 100 })]);
    const first = await billed(shop, 'Ana Birch');
    shop.wait(10 * DAY);
    const second = await billed(shop, 'Bo Cedar');
    const paid = await billed(shop, 'Cy Dogwood');
    const over = await billed(shop, 'Di Elm');
    await pay(shop, first, '150.50');
    await pay(shop, paid, '400');
    await pay(shop, over, '410');
    shop.wait(5 * DAY);

    const owed = await shop.call('till.listOwed', {});
    const rows = owed.flatMap(({ hunter, animals }) =>
      animals.map((one) => [hunter, one.animalId, one.billedOn, one.ageDays, one.dueMinor]),
    );
    expect(rows).toEqual([
      ['Ana Birch', first, '2026-10-10', 15, 24_950],
      ['Bo Cedar', second, '2026-10-20', 5, 40_000],
      ['Di Elm', over, '2026-10-20', 5, -1000],
    ]);
    expect(owed[0]?.due).toEqual([{ currency: 'USD', dueMinor: 24_950 }]);
  });

  it('leave out a bill that was voided', async () => {
    const shop = await pricedShop([priced('cut', 'hanging', { unit: 'lb', amountMinor: 100 })]);
    const animalId = await takeIn(shop);
    const { id: billId } = await shop.call('bills.create', { animalId, confirmed: true });
    await shop.call('bills.void', { billId, reason: 'wrong hunter' });
    expect(await shop.call('till.listOwed', {})).toEqual([]);
  });

  it('stand on a statement document by document, with the balance after each', async () => {
    const shop = await pricedShop([priced('cut', 'hanging', { unit: 'lb', amountMinor: 100 })]);
    const animalId = await billed(shop, 'Ana Birch');
    shop.wait(DAY);
    await pay(shop, animalId, '150');
    shop.wait(DAY);
    await shop.call('bills.pay', { animalId, kind: 'refund', method: 'cash', typed: '20' });
    const [account] = await shop.call('till.listOwed', {});
    const { accounts } = await shop.call('till.getStatement', { hunterId: account?.hunterId ?? 0 });
    expect(accounts).toMatchObject([
      {
        currency: 'USD',
        dueMinor: 27_000,
        lines: [
          { what: 'bill', number: 1, minor: 40_000, balanceMinor: 40_000 },
          { what: 'payment', minor: -15_000, balanceMinor: 25_000 },
          { what: 'refund', minor: 2000, balanceMinor: 27_000 },
        ],
      },
    ]);
  });

  it('name every hunter of a shared animal, each with a part and payments of its own, summing to the balance', async () => {
    const shop = await pricedShop([priced('cut', 'hanging', { unit: 'lb', amountMinor: 100 })]);
    const animalId = await billed(shop, 'Ana Birch');
    const { hunter } = await shop.call('animals.get', { id: animalId });
    const others = ['Bo Cedar', 'Cy Dogwood'].map((name) => ({ hunter: { name, phone: '555-0111' }, typed: '1' }));
    const shares = [{ hunter: { id: hunter.id }, typed: '1' }, ...others];
    await shop.call('shares.save', { animalId, basis: 'pieces', shares });
    const { sharers } = await shop.call('animals.get', { id: animalId });
    const [ana = 0, bo = 0, cy = 0] = sharers.map(({ hunterId }) => hunterId);
    const paid = (typed: string, hunterId: number | null) =>
      shop.call('bills.pay', { animalId, kind: 'payment', method: 'cash', typed, hunterId, confirmed: true });
    await paid('50', null);
    await paid('133.33', bo);
    await paid('140', cy);

    // $400 are $133.34, $133.33 and $133.33. Ana is the owner, so the payment without a payer is hers.
    const owed = await shop.call('till.listOwed', {});
    expect(owed.map((one) => [one.hunterId, one.hunter, one.due])).toEqual([
      [ana, 'Ana Birch', [{ currency: 'USD', dueMinor: 8334 }]],
      [cy, 'Cy Dogwood', [{ currency: 'USD', dueMinor: -667 }]],
    ]);
    expect(owed[1]).toMatchObject({ phone: '555-0111', animals: [{ animalId, shared: true, totalMinor: 13_333, paidMinor: 14_000 }] });
    const { dueMinor } = await shop.call('bills.get', { animalId });
    expect(owed.flatMap(({ due }) => due).reduce((sum, one) => sum + one.dueMinor, 0)).toBe(dueMinor);

    const statement = async (hunterId: number) => (await shop.call('till.getStatement', { hunterId })).accounts;
    expect(await statement(ana)).toMatchObject([{ dueMinor: 8334, lines: [{ what: 'bill', minor: 13_334, wholeMinor: 40_000 }, { what: 'payment', minor: -5000, wholeMinor: null, balanceMinor: 8334 }] }]);
    expect(await statement(cy)).toMatchObject([{ dueMinor: -667, lines: [{ minor: 13_333 }, { minor: -14_000 }] }]);
    expect(await statement(bo)).toEqual([]);
  }); // prettier-ignore

  it('remember the last reminder, also of an animal that went home', async () => {
    const shop = await pricedShop([priced('cut', 'hanging', { unit: 'lb', amountMinor: 100 })]);
    const animalId = await billed(shop, 'Ana Birch');
    await shop.call('animals.setStage', {
      id: animalId,
      stage: 'ready',
      answer: 'weighed again',
      confirmed: true,
    });
    await shop.call('pickup.release', { id: animalId, to: 'Ana', unpaidBy: 'MK' });
    await shop.call('till.saveReminder', { animalId, text: 'Left a message', by: 'MK' });
    const [account] = await shop.call('till.listOwed', {});
    expect(account?.animals[0]).toMatchObject({
      stage: 'released',
      lastCall: { text: 'Left a message', by: 'MK' },
    });
    await pay(shop, animalId, '400');
    expect(await shop.problem('till.saveReminder', { animalId, text: 'again' })).toMatchObject({
      code: 'reminder.settled',
    });
  });
});

/** The void of a bill undone: it comes back as it was, and only while nothing that it charges changed. */
import { describe, expect, it } from 'vitest';
import { takeIn, type FreshDesk } from '../fresh-desk.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

const DAY = 24 * 3600;
const CUT = (amountMinor: number) =>
  priced('cut', 'hanging', { label: 'Cut', unit: 'lb', amountMinor, taxRate: 0.06 });
const CAPE = priced('cape', 'extra', { label: 'Cape', amountMinor: 4000 });
const HOUR = priced('bench', 'hour', { label: 'Bench', amountMinor: 6500 });

/** A shop in which bill 1 of an elk was voided. */
async function voidedBill(): Promise<{ shop: FreshDesk; animalId: number; billId: number }> {
  const shop = await pricedShop([CUT(95), CAPE, HOUR]);
  const animalId = await takeIn(shop);
  await shop.call('bills.setExtras', { animalId, pricedExtras: { cape: 1 } });
  const { id: billId } = await shop.call('bills.create', { animalId, confirmed: true, by: 'MK' });
  shop.wait(DAY);
  await shop.call('bills.void', { billId, reason: 'wrong animal', by: 'RB' });
  shop.wait(5);
  return { shop, animalId, billId };
} // prettier-ignore
const billOf = async (shop: FreshDesk, animalId: number) => (await shop.call('bills.get', { animalId })).bill;

describe('the void of a bill undone', () => {
  it('brings the bill back to the cent, whatever the prices and weights are now', async () => {
    const { shop, animalId, billId } = await voidedBill();
    const before = (await shop.call('bills.get', { animalId })).voidedBills[0]!;
    // 400 lb × $0.95 + 6 %, and the cape: $402.80 + $40.00.
    expect(before.totalMinor).toBe(44_280);
    await shop.call('prices.save', {
      name: 'Dearer',
      validFrom: '2026-10-01',
      lines: [CUT(120), CAPE, HOUR],
    });
    await shop.call('table.weigh', {
      animalId,
      stage: 'hanging',
      part: 'carcass',
      typed: '12',
      confirmed: true,
    });
    expect(await shop.call('bills.restore', { billId, by: 'MK' })).toMatchObject({ number: 2 });
    const { id, number, by, billedOn, voided, ...sums } = (await billOf(shop, animalId))!;
    expect([number, by, billedOn, voided]).toEqual([2, 'MK', '2026-10-11', null]);
    expect(before).toMatchObject(sums);
    expect(id).not.toBe(billId);
  });

  it('is done once, and not while another bill stands', async () => {
    const { shop, animalId, billId } = await voidedBill();
    const { id } = await shop.call('bills.restore', { billId });
    expect(await shop.problem('bills.restore', { billId })).toMatchObject({ code: 'bill.stands' });
    expect(await shop.problem('bills.restore', { billId: id })).toMatchObject({ code: 'bill.not-voided' });
    await shop.call('bills.void', { billId: id, reason: 'after all' });
    shop.wait(5);
    expect(await shop.problem('bills.restore', { billId })).toMatchObject({ code: 'bill.newer' });
    expect(await billOf(shop, animalId)).toBeNull();
  });

  it.each([
    ['an adjustment', (shop: FreshDesk, animalId: number) =>
      shop.call('bills.adjust', { animalId, adjustment: { kind: 'amount off', amountMinor: 500, reason: 'late' } })],
    ['hours', (shop: FreshDesk, animalId: number) =>
      shop.call('bills.addHours', { animalId, lineCode: 'bench', minutes: 50 })],
    ['extras', (shop: FreshDesk, animalId: number) =>
      shop.call('bills.setExtras', { animalId, pricedExtras: { cape: 2 } })],
  ])('is refused once %s came that it does not charge', async (_, change) => {
    const { shop, animalId, billId } = await voidedBill();
    await change(shop, animalId);
    expect(await shop.problem('bills.restore', { billId })).toMatchObject({ kind: 'refused', code: 'bill.changed', with: { number: 1 } });
    expect(await billOf(shop, animalId)).toBeNull();
  }); // prettier-ignore

  it('is refused in another currency, and for a canceled animal', async () => {
    const { shop, animalId, billId } = await voidedBill();
    await shop.call('shop.saveSettings', { changes: { currency: 'EUR' } });
    expect(await shop.problem('bills.restore', { billId })).toMatchObject({ code: 'bill.other-currency' });
    await shop.call('animals.cancel', { id: animalId, reason: 'entered twice' });
    expect(await shop.problem('bills.restore', { billId })).toMatchObject({ code: 'animal.closed' });
    expect(await shop.problem('bills.restore', { billId: 99 })).toMatchObject({ code: 'bill.unknown' });
  });

  it('leaves the money of the day of the void as it is', async () => {
    const { shop, animalId, billId } = await voidedBill();
    await shop.call('bills.pay', { animalId, kind: 'payment', method: 'cash', typed: '100' });
    await shop.call('bills.restore', { billId });
    expect(await shop.call('bills.get', { animalId })).toMatchObject({ paidMinor: 10_000, dueMinor: 34_280 });
  });
});

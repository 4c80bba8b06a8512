/** The void of a payment undone: on which day the money counts, and when it is refused. */
import { describe, expect, it } from 'vitest';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const DAY = 24 * 3600;

async function deposit(shop: FreshDesk, animalId: number, typed = '50'): Promise<number> {
  const paid = { animalId, kind: 'deposit', method: 'cash', typed } as const;
  return (await shop.call('bills.pay', paid)).id;
}
const voided = (shop: FreshDesk, paymentId: number) =>
  shop.call('bills.voidPayment', { paymentId, reason: 'wrong animal' });

describe('the void of a payment undone', () => {
  it('leaves both tills as the drawer is: the old day once, the day of the void at nothing', async () => {
    const shop = await freshDesk();
    const paymentId = await deposit(shop, await takeIn(shop));
    shop.wait(2 * DAY);
    await voided(shop, paymentId);
    shop.wait(DAY);
    await shop.call('bills.restorePayment', { paymentId });
    const cash = async (day: string) => (await shop.call('till.get', { day })).cashMinor;
    expect([await cash('2026-10-10'), await cash('2026-10-12'), await cash('2026-10-13')]).toEqual([5000, 0, 0]);
    expect(await shop.problem('bills.restorePayment', { paymentId })).toMatchObject({ code: 'payment.restored' });
  }); // prettier-ignore

  it('counts on the day in the shop, also late in the evening', async () => {
    // Eight in the evening of the tenth in Denver is the eleventh in UTC.
    const shop = await freshDesk('lb', '2026-10-11T02:00:00Z');
    const animalId = await takeIn(shop);
    const paymentId = await deposit(shop, animalId);
    await voided(shop, paymentId);
    await shop.call('bills.restorePayment', { paymentId });
    const { payments } = await shop.call('bills.get', { animalId });
    expect(payments.map(({ paidOn }) => paidOn)).toEqual(['2026-10-10', '2026-10-10']);
  });

  it('is refused once the account goes on in another currency', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const paymentId = await deposit(shop, animalId);
    await voided(shop, paymentId);
    await shop.call('shop.saveSettings', { changes: { currency: 'EUR' } });
    await deposit(shop, animalId, '20');
    expect(await shop.problem('bills.restorePayment', { paymentId })).toMatchObject({
      code: 'payment.other-currency',
      with: { currency: 'USD', now: 'EUR' },
    });
  });

  it('brings no money to a canceled animal', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const paymentId = await deposit(shop, animalId);
    await voided(shop, paymentId);
    await shop.call('animals.cancel', { id: animalId, reason: 'entered twice' });
    expect(await shop.problem('bills.restorePayment', { paymentId })).toMatchObject({
      code: 'animal.closed',
      with: { stage: 'canceled' },
    });
  });

  it('stays possible for an animal that was disposed of, which may be paid for and refunded as well', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const paymentId = await deposit(shop, id);
    await shop.call('animals.dispose', { id, what: 'all', how: 'landfill', reason: 'spoiled' });
    await voided(shop, paymentId);
    await shop.call('bills.restorePayment', { paymentId });
    expect((await shop.call('bills.get', { animalId: id })).paidMinor).toBe(5000);
  });

  it('is refused where the animal has as many payments as it may have', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const paymentId = await deposit(shop, animalId);
    await voided(shop, paymentId);
    for (let n = 1; n < 500; n++) await deposit(shop, animalId, '20');
    expect(await shop.problem('bills.restorePayment', { paymentId })).toMatchObject({
      code: 'payment.too-many',
    });
  });
});

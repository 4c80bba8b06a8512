/** What the drop-off receipt says, and the deposit taken with it. */
import { describe, expect, it } from 'vitest';
import { takeIn } from '../fresh-desk.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

describe('a drop-off receipt', () => {
  it('asks for the deposit of the price book before anything is weighed', async () => {
    const shop = await pricedShop([
      priced('cut', 'hanging', { unit: 'lb', amountMinor: 110 }),
      priced('deposit', 'deposit', { amountMinor: 5000 }),
    ]);
    const animalId = await takeIn(shop, {}, null);
    const before = await shop.call('animals.getDropOff', { animalId });
    expect(before).toMatchObject({
      depositMinor: 5000,
      paidMinor: 0,
      payments: [],
      quote: null,
      orders: null,
    });

    await shop.call('bills.pay', {
      animalId, kind: 'deposit', method: 'check', reference: '1042', typed: '30', by: 'MK',
    }); // prettier-ignore
    const after = await shop.call('animals.getDropOff', { animalId });
    expect(after).toMatchObject({ depositMinor: 2000, paidMinor: 3000, currency: 'USD' });
    expect(after.payments).toMatchObject([
      { kind: 'deposit', method: 'check', reference: '1042', amountMinor: 3000, by: 'MK' },
    ]);
  });

  it('leaves out a payment that was voided', async () => {
    const shop = await pricedShop([priced('deposit', 'deposit', { amountMinor: 5000 })]);
    const animalId = await takeIn(shop, {}, null);
    const paid = { animalId, kind: 'deposit', method: 'cash', typed: '50' } as const;
    const { id: paymentId } = await shop.call('bills.pay', paid);
    await shop.call('bills.voidPayment', { paymentId, reason: 'another animal' });
    expect(await shop.call('animals.getDropOff', { animalId })).toMatchObject({
      payments: [],
      depositMinor: 5000,
    });
  });

  it('says what was ordered, and what was quoted', async () => {
    const shop = await pricedShop([priced('cut', 'hanging', { unit: 'lb', amountMinor: 110 })]);
    const instructions = {
      cutsShare: 0.5, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 454, extras: [],
    }; // prettier-ignore
    const quote = await shop.call('quotes.save', {
      species: 'elk', brought: 'skinned', stage: 'hanging', typed: '300', instructions, hunterName: 'Dana Whitlock',
    }); // prettier-ignore
    const animalId = await takeIn(shop, { quoteId: quote.id, instructions }, null);
    // 300 lb × $1.10.
    expect(await shop.call('animals.getDropOff', { animalId })).toMatchObject({
      orders: { cutsShare: 0.5, grindProduct: 'Ground' },
      quote: { name: quote.name, meanMinor: 33_000, currency: 'USD' },
    });
  });
});

describe('payment methods', () => {
  it('are the shop’s list, and cash cannot be taken out', async () => {
    const shop = await pricedShop([]);
    const change = (paymentMethods: string[]) => ({ changes: { paymentMethods } });
    await shop.call('shop.saveSettings', change(['cash', 'check', 'Gift card']));
    expect((await shop.call('shop.get', {})).settings.paymentMethods).toEqual(['cash', 'check', 'Gift card']);
    expect((await shop.problem('shop.saveSettings', change(['card']))).code).toBe('method.cash');
    expect((await shop.problem('shop.saveSettings', change(['cash', 'card', 'card']))).code).toBe(
      'method.twice',
    );
  });
});

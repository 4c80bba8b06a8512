import { describe, expect, it } from 'vitest';
import { cut, freshDesk, takeIn } from '../fresh-desk.ts';

const LB = 453.59237;

describe('a void that is undone', () => {
  it('brings the weight back as it was typed, beside the voided row, and once only', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '61.2+58.4' });
    const rows = async () =>
      (await shop.call('animals.get', { id })).weighings.filter(({ part }) => part === 'trim');
    const [first] = await rows();
    const weighingId = first?.id ?? 0;
    await expect(shop.call('table.restore', { weighingId })).rejects.toThrow('weighing.not-voided');
    await shop.call('table.void', { weighingId, reason: 'wrong animal' });
    expect((await shop.call('animals.get', { id })).trimGrams).toBe(0);
    await shop.call('table.restore', { weighingId });
    expect((await shop.call('animals.get', { id })).trimGrams).toBeCloseTo(119.6 * LB, 6);
    expect((await rows()).map(({ typed, corrects, voided }) => [typed, corrects, voided?.reason])).toEqual([
      ['61.2+58.4', null, 'wrong animal'],
      ['61.2+58.4', weighingId, undefined],
    ]);
    await expect(shop.call('table.restore', { weighingId })).rejects.toThrow('weighing.replaced');
  });

  it('brings text and container back as they were weighed, in a shop that changed its unit since', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const typed = { typed: '61.2+58.4', tareTyped: '1.2+1.2' } as const;
    const { weighingId, grams } = await shop.call('table.weigh', {
      animalId,
      stage: 'cut',
      part: 'trim',
      ...typed,
    });
    await shop.call('table.void', { weighingId, reason: 'wrong animal' });
    await shop.call('shop.saveSettings', { changes: { unit: 'kg', step: 0.02 } });
    await shop.call('table.restore', { weighingId });
    const { weighings } = await shop.call('animals.get', { id: animalId });
    expect(weighings.at(-1)).toMatchObject({ ...typed, unit: 'lb', tareUnit: 'lb', grams, voided: null });
  });

  it('brings no weight back that was corrected', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60' });
    const weighingId = (await shop.call('animals.get', { id })).weighings.at(-1)?.id ?? 0;
    await shop.call('table.correct', { weighingId, typed: '61', reason: 'misread' });
    await expect(shop.call('table.restore', { weighingId })).rejects.toThrow('weighing.replaced');
  });

  it('brings fat saved back on hand', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { 'fat saved': '6' });
    const weighingId = (await shop.call('animals.get', { id })).weighings.at(-1)?.id ?? 0;
    const own = async () =>
      (await shop.call('animals.get', { id })).weighings.filter(({ voided }) => voided === null).length;
    const before = await own();
    await shop.call('table.void', { weighingId, reason: 'wrong animal' });
    await shop.call('table.restore', { weighingId });
    expect(await own()).toBe(before);
  });

  it('enters the same money again, once only', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const { id: paymentId } = await shop.call('bills.pay', {
      animalId,
      kind: 'deposit',
      method: 'cash',
      typed: '20',
    });
    await expect(shop.call('bills.restorePayment', { paymentId })).rejects.toThrow('payment.not-voided');
    await shop.call('bills.voidPayment', { paymentId, reason: 'wrong animal' });
    await shop.call('bills.restorePayment', { paymentId });
    const { payments } = await shop.call('bills.get', { animalId });
    expect(payments.map(({ amountMinor, voided }) => [amountMinor, voided !== null])).toEqual([
      [2000, true],
      [2000, false],
    ]);
    await expect(shop.call('bills.restorePayment', { paymentId })).rejects.toThrow('payment.restored');
  });

  it('enters the same reading of a cooler again, at its moment', async () => {
    const shop = await freshDesk();
    const { id: coolerId } = await shop.call('coolers.save', { name: 'Cold room', places: 9 });
    await shop.call('coolers.logTemperature', { coolerId, typed: '36' });
    const readings = async () =>
      (await shop.call('coolers.list', {})).find(({ id }) => id === coolerId)?.readings ?? [];
    const [before] = await readings();
    shop.wait(600);
    const readingId = before?.id ?? 0;
    await shop.call('coolers.voidTemperature', { readingId, reason: 'another room' });
    await shop.call('coolers.restoreTemperature', { readingId });
    expect((await readings()).map(({ c, at }) => [c, at])).toEqual([[before?.c, before?.at]]);
    await expect(shop.call('coolers.restoreTemperature', { readingId })).rejects.toThrow(
      'temperature.not-voided',
    );
  });
});

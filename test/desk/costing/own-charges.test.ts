/** A season's income and tried prices where bills have charges of their own, or less than the whole work was done. */
import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { takeIn, type FreshDesk } from '../fresh-desk.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

const CUT = priced('cut', 'hanging', { label: 'Cut and wrap', unit: 'lb', amountMinor: 95, taxRate: 0.06 });
const SKIN = priced('skin', 'animal', { label: 'Skinning', amountMinor: 3500 });
const CAPE = priced('cape', 'extra', { label: 'Caping', amountMinor: 4000 });
const LINES = [CUT, SKIN, CAPE];

async function billed(shop: FreshDesk, ...adjustments: CallInput<'bills.adjust'>['adjustment'][]): Promise<number> {
  const animalId = await takeIn(shop);
  for (const adjustment of adjustments) await shop.call('bills.adjust', { animalId, adjustment });
  await shop.call('bills.create', { animalId, confirmed: true });
  return (await shop.call('bills.get', { animalId })).bill!.totalMinor;
} // prettier-ignore
const bags = (amountMinor: number, label = 'Bags') =>
  ({ kind: 'free line', label, amountMinor, taxRate: 0, reason: 'asked for' }) as const;

describe('tried prices', () => {
  it('keep what each bill has of its own, so that the same prices bring the same, and say how many have', async () => {
    const shop = await pricedShop(LINES);
    const totals = [
      await billed(shop),
      await billed(shop, { kind: 'amount off', amountMinor: 1000, reason: 'late' }, bags(1200)),
      await billed(shop, { kind: 'percent off', rate: 0.1, reason: 'friend' }, bags(300)),
      await billed(shop, { kind: 'other price', lineCode: 'cut', amountMinor: 80, reason: 'promised' }),
    ];
    const thenMinor = totals.reduce((sum, one) => sum + one, 0);
    const same = await shop.call('costing.tryPrices', { lines: LINES });
    expect(same).toMatchObject({ animals: 4, adjusted: 3, unprocessed: 0, thenMinor, nowMinor: thenMinor });
    for (const one of same.lines) expect(one.nowMinor, one.label).toBe(one.thenMinor);
    expect(same.lines.find(({ label }) => label === 'Bags')).toMatchObject({
      basis: 'free',
      thenMinor: 1500,
    });
    // Skinning $10.00 dearer: $10.00 on three bills, $9.00 on that with 10 % off. Of $10.00 off the taxed cutting has $8.90,
    // beside dearer skinning $8.70: its tax is $0.52 less instead of $0.53.
    const dearer = await shop.call('costing.tryPrices', {
      lines: [CUT, { ...SKIN, amountMinor: 4500 }, CAPE],
    });
    expect(dearer.nowMinor - dearer.thenMinor).toBe(3901);
  });

  it('charge an animal that went back unprocessed only for what was done', async () => {
    const shop = await pricedShop(LINES);
    const animalId = await takeIn(shop);
    await shop.call('bills.setExtras', { animalId, pricedExtras: { cape: 1 } });
    await shop.call('unprocessed.add', { id: animalId, reason: 'takes it to another shop', by: 'MK' });
    await shop.call('bills.create', { animalId, confirmed: true });
    expect(await shop.call('costing.tryPrices', { lines: LINES })).toMatchObject({
      animals: 1,
      unprocessed: 1,
      thenMinor: 4000,
      nowMinor: 4000,
    });
  });
});

describe('the income of a season', () => {
  const linesOf = async (shop: FreshDesk) =>
    (await shop.call('costing.get', {})).income.flatMap(({ code, lines }) =>
      lines.map(({ label, bills, minor }) => [code, label, bills, minor]),
    );

  it('calls a line as the newest price book does, and keeps what is charged otherwise apart', async () => {
    const shop = await pricedShop([
      CUT,
      priced('mount', 'animal', { label: 'Zebra wood mount', amountMinor: 5000 }),
    ]);
    await billed(shop);
    await shop.call('prices.save', {
      name: 'Next', validFrom: '2026-10-01',
      lines: [{ ...CUT, label: 'Butchering' }, priced('mount', 'minimum', { label: 'Least charge', amountMinor: 50_000 })],
    }); // prettier-ignore
    await billed(shop, { kind: 'other price', lineCode: 'cut', amountMinor: 80, reason: 'promised' });
    expect(await linesOf(shop)).toEqual([
      // 400 lb × $0.95 and × $0.80; the least charge lifts $320.00 to $500.00.
      ['cutting', 'Butchering', 2, 70_000],
      ['cutting', 'Zebra wood mount', 1, 5000],
      ['whole', 'Least charge', 1, 18_000],
    ]);
  });

  it('puts free lines together that are called alike, and no others', async () => {
    const shop = await pricedShop([CUT]);
    await billed(shop, bags(1200), bags(500, 'Rope'));
    await billed(shop, bags(300));
    expect(await linesOf(shop)).toEqual([
      ['cutting', 'Cut and wrap', 2, 76_000],
      ['whole', 'Bags', 2, 1500],
      ['whole', 'Rope', 1, 500],
    ]);
  });
});

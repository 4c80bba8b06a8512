/** What holds of every bill and payment, tried on a real book with amounts drawn at random. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';
import { priced } from '../pricing/priced-shop.ts';
import { runs } from '../../runs.ts';

const RUNS = runs(1000);
/** New animals after so many runs: every answer lists all payments of an animal. */
const SAME_ANIMALS = 50;

const PRICES = [
  priced('hang', 'hanging', { unit: 'lb', amountMinor: 95, taxRate: 0.0825 }),
  priced('flat', 'animal', { amountMinor: 4995 }),
];
const pricesOfTheDay = { name: 'Prices', validFrom: '2026-08-01', lines: PRICES };

async function billedElk(shop: FreshDesk): Promise<number> {
  const animalId = await takeIn(shop, {}, '412.35');
  await shop.call('bills.create', { animalId, confirmed: true });
  return animalId;
}

describe('a payment', () => {
  it('may be split as one likes: the same is due', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', pricesOfTheDay);
    const pay = (animalId: number, minor: number) => {
      const typed = (minor / 100).toFixed(2);
      return shop.call('bills.pay', { animalId, kind: 'payment', method: 'cash', typed, confirmed: true });
    };
    const due = async (animalId: number) => (await shop.call('bills.get', { animalId })).dueMinor;
    let [inParts, atOnce, runs] = [0, 0, 0];
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.integer({ min: 1, max: 30_000 }), { minLength: 1, maxLength: 4 }),
        async (parts) => {
          if (runs++ % SAME_ANIMALS === 0) [inParts, atOnce] = [await billedElk(shop), await billedElk(shop)];
          const before = await due(inParts);
          const sum = parts.reduce((total, part) => total + part, 0);
          for (const part of parts) await pay(inParts, part);
          await pay(atOnce, sum);
          expect(await due(inParts)).toBe(before - sum);
          expect(await due(atOnce)).toBe(before - sum);
        },
      ),
      { numRuns: RUNS },
    );
  }, 120_000);
});

describe('a bill that was made', () => {
  it('never changes with the prices', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', pricesOfTheDay);
    const animalId = await billedElk(shop);
    const { bill } = await shop.call('bills.get', { animalId });
    // 412.35 lb × $0.95 = $391.7325 → $391.73; 8.25 % of it $32.317725 → $32.32; with $49.95 in all $474.00.
    expect(bill).toMatchObject({ subtotalMinor: 44_168, taxMinor: 3232, totalMinor: 47_400 });
    await fc.assert(
      fc.asyncProperty(
        fc.record({
          hang: fc.integer({ min: 0, max: 100_000 }),
          flat: fc.integer({ min: 0, max: 100_000 }),
          rate: fc.integer({ min: -100, max: 100 }),
          tax: fc.integer({ min: 0, max: 50 }),
          taxRule: fc.constantFrom('per line' as const, 'per bill' as const),
        }),
        async ({ hang, flat, rate, tax, taxRule }) => {
          await shop.call('prices.save', {
            name: 'Others', validFrom: '2026-08-01', taxRule,
            lines: [
              priced('hang', 'hanging', { unit: 'lb', amountMinor: hang, taxRate: tax / 100 }),
              priced('flat', 'animal', { amountMinor: flat }),
              priced('more', 'percent', { rate: rate / 100 }),
            ],
          }); // prettier-ignore
          expect((await shop.call('bills.get', { animalId })).bill).toEqual(bill);
        },
      ),
      { numRuns: RUNS },
    );
  }, 120_000);
});

/** Whatever is paid, voided, closed and opened again in whatever order: no cent is counted twice, none is lost. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { takeIn, type FreshDesk } from '../fresh-desk.ts';
import { seenIn } from './seen-in.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';

const HOUR = 3600;

type Step =
  | { do: 'pay'; kind: 'deposit' | 'payment' | 'refund'; method: 'cash' | 'check'; cents: number }
  | { do: 'void'; which: number }
  | { do: 'close'; daysAgo: number }
  | { do: 'open'; which: number }
  | { do: 'wait'; hours: number };

const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      do: fc.constant('pay' as const),
      kind: fc.constantFrom('deposit' as const, 'payment' as const, 'refund' as const),
      method: fc.constantFrom('cash' as const, 'check' as const),
      cents: fc.integer({ min: 1, max: 99_999 }),
    }),
  },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('void' as const), which: fc.nat(20) }) },
  { weight: 3, arbitrary: fc.record({ do: fc.constant('close' as const), daysAgo: fc.nat(3) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant('open' as const), which: fc.nat(5) }) },
  { weight: 2, arbitrary: fc.record({ do: fc.constant('wait' as const), hours: fc.integer({ min: 1, max: 40 }) }) },
); // prettier-ignore

const dayBefore = (day: string, days: number): string =>
  new Date(Date.parse(`${day}T00:00:00Z`) - days * 24 * HOUR * 1000).toISOString().slice(0, 10);

/** What the shop took in cash by the book's own rows: payments, less refunds, voids left out. */
async function cashByAccount(shop: FreshDesk, animalId: number): Promise<number> {
  const { payments } = await shop.call('bills.get', { animalId });
  return payments
    .filter(({ method, voided }) => method === 'cash' && !voided)
    .reduce((sum, { kind, amountMinor }) => sum + (kind === 'refund' ? -amountMinor : amountMinor), 0);
}

it('closings and open days together hold the cash of the accounts, and a closing never changes', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 5, maxLength: 30 }), async (steps) => {
      const shop = await pricedShop([priced('cut', 'hanging', { unit: 'lb', amountMinor: 100 })]);
      const animalId = await takeIn(shop);
      const paymentIds: number[] = [];
      const closed = new Map<number, { day: string; cashMinor: number }>();
      const days = new Set<string>();
      const today = async (): Promise<string> => (await shop.call('shop.get', {})).today;
      for (const one of steps) {
        days.add(await today());
        if (one.do === 'wait') shop.wait(one.hours * HOUR);
        else if (one.do === 'pay') {
          const { kind, method, cents } = one;
          // A refund of more than was paid is refused, and counts nowhere.
          const answer = await shop.desk.call('bills.pay', {
            animalId, kind, method, typed: (cents / 100).toFixed(2), confirmed: true, by: 'MK',
          }); // prettier-ignore
          if (answer.ok) paymentIds.push((answer.value as { id: number }).id);
        } else if (one.do === 'void') {
          const paymentId = paymentIds[one.which % Math.max(1, paymentIds.length)];
          if (paymentId) await shop.desk.call('bills.voidPayment', { paymentId, reason: 'slip' });
        } else if (one.do === 'close') {
          const day = dayBefore(await today(), one.daysAgo);
          const till = await shop.call('till.get', { day });
          if (till.closing) continue;
          const { id } = await shop.call('till.close', {
            day, currency: 'USD', expectedMinor: till.expectedMinor, seen: seenIn(till), counted: { total: '0' }, note: 'counted', by: 'MK',
          }); // prettier-ignore
          days.add(day);
          closed.set(id, { day, cashMinor: till.cashMinor });
        } else {
          const id = [...closed.keys()][one.which % Math.max(1, closed.size)];
          if (id === undefined) continue;
          await shop.call('till.void', { id, reason: 'counted wrong' });
          closed.delete(id);
        }
      }
      days.add(await today());
      let cash = 0;
      const late = new Set<string>();
      for (const { day, cashMinor } of closed.values()) {
        const till = await shop.call('till.get', { day });
        expect(till.cashMinor).toBe(cashMinor);
        cash += cashMinor;
        for (const { what, paymentId, method, minor } of till.afterClosing) {
          late.add(`${what} ${paymentId}`);
          if (method === 'cash') cash += minor;
        }
      }
      for (const day of days) {
        const till = await shop.call('till.get', { day });
        if (till.closing) continue;
        const carried = new Set(till.carried.map(({ what, paymentId }) => `${what} ${paymentId}`));
        for (const one of carried) expect(late).toContain(one);
        for (const { what, paymentId, method, minor } of till.entries)
          if (method === 'cash' && !carried.has(`${what} ${paymentId}`)) cash += minor;
      }
      expect(cash).toBe(await cashByAccount(shop, animalId));
      shop.desk.close();
    }),
    { numRuns: 15 },
  );
});

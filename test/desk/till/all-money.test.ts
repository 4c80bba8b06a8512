/** Days of a shop's money at random: the desk's bills, tills, balances, statements and files against a second set of books. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { takeIn, type FreshDesk } from '../fresh-desk.ts';
import { priced, pricedShop } from '../pricing/priced-shop.ts';
import { billed, paid, signed, standing, sum, type Kept, type KeptPayment, type Prices } from './ledger.ts';
import { checkAccounts, checkFiles, checkTills } from './ledger-checks.ts';
import { seenIn } from './seen-in.ts';

type Adjustment = CallInput<'bills.adjust'>['adjustment'];
const cents = (most: number) => fc.integer({ min: 1, max: most });
const act = <T extends string, R extends object>(name: T, more: { [K in keyof R]: fc.Arbitrary<R[K]> }) =>
  fc.record({ do: fc.constant(name), which: fc.nat(9), ...more }) as unknown as fc.Arbitrary<
    { do: T; which: number } & R
  >;
const adjustment: fc.Arbitrary<Adjustment> = fc.oneof(
  fc.record({ kind: fc.constant('amount off' as const), amountMinor: cents(3000), reason: fc.constant('late') }),
  fc.record({ kind: fc.constant('percent off' as const), rate: cents(40).map((n) => n / 1000), reason: fc.constant('friend') }),
  fc.record({ kind: fc.constant('free line' as const), label: fc.constantFrom('Bags', 'Rope'), amountMinor: cents(2000), taxRate: fc.constantFrom(0, 0.06, 0.0825), reason: fc.constant('asked') }),
  fc.record({ kind: fc.constant('other price' as const), lineCode: fc.constant('skin'), amountMinor: cents(9000), reason: fc.constant('promised') }),
); // prettier-ignore
const step = fc.oneof(
  { weight: 3, arbitrary: act('bill', {}) },
  { weight: 2, arbitrary: act('void bill', {}) },
  { weight: 2, arbitrary: act('restore bill', {}) },
  { weight: 5, arbitrary: act('pay', { kind: fc.constantFrom('deposit' as const, 'payment' as const, 'payment' as const, 'refund' as const), method: fc.constantFrom('cash', 'card', 'check'), minor: cents(30_000), other: fc.boolean() }) },
  { weight: 2, arbitrary: act('void payment', { nth: fc.nat(9), restored: fc.boolean() }) },
  { weight: 3, arbitrary: act('adjust', { adjustment }) },
  { weight: 1, arbitrary: act('work', { minutes: cents(200), capes: fc.nat(3) }) },
  { weight: 2, arbitrary: act('close', {}) },
  { weight: 1, arbitrary: act('open', {}) },
  { weight: 3, arbitrary: act('wait', { hours: cents(30) }) },
); // prettier-ignore
const prices: fc.Arbitrary<Prices> = fc.record({
  cut: cents(150), skin: cents(6000), cape: cents(6000), hour: cents(9000), least: fc.constantFrom(0, 20_000, 60_000),
  early: fc.constantFrom(-100, 0, 35), tax: fc.constantFrom(0, 60, 82.5),
}); // prettier-ignore
const linesOf = ({ cut, skin, cape, hour, least, early, tax }: Prices) => [
  priced('cut', 'hanging', { unit: 'lb', amountMinor: cut, taxRate: tax / 1000 }),
  priced('skin', 'animal', { amountMinor: skin }),
  priced('cape', 'extra', { amountMinor: cape, taxRate: tax / 1000 }),
  priced('bench', 'hour', { amountMinor: hour }),
  priced('early', 'percent', { rate: early / 1000 }),
  priced('least', 'minimum', { amountMinor: least, taxRate: tax / 1000 }),
];

it('bills, tills, balances, statements and files agree to the cent with books kept beside them', async () => {
  await fc.assert(
    fc.asyncProperty(
      prices,
      fc.constantFrom('per line' as const, 'per bill' as const),
      fc.array(step, { minLength: 20, maxLength: 45 }),
      async (p, taxRule, steps) => {
        const shop = await pricedShop(linesOf(p), { taxRule });
        const animals = [
          await animal(shop, 40_000),
          await animal(shop, 31_235),
          await animal(shop, 27_333, true),
        ];
        const days = await run(shop, p, animals, steps);
        await checkTills(shop, animals, days);
        await checkAccounts(shop, animals);
        await checkFiles(shop, animals);
        shop.desk.close();
      },
    ),
    { numRuns: 3 },
  );
}, 60_000);

async function animal(shop: FreshDesk, hanging: number, shared = false): Promise<Kept> {
  const animalId = await takeIn(shop, shared ? {} : { hunter: { name: `Hunter ${hanging}` } }, (hanging / 100).toFixed(2));
  const owner = (await shop.call('animals.get', { id: animalId })).hunter.id;
  let sharer: number | null = null;
  if (shared) {
    await shop.call('shares.save', { animalId, basis: 'percent', shares: [{ hunter: { id: owner }, typed: '60' }, { hunter: { name: 'Bob Ray' }, typed: '40' }] });
    sharer = (await shop.call('animals.get', { id: animalId })).sharers[1]!.hunterId;
  }
  return {
    animalId, owner, sharer, hanging, minutes: 0, capes: 0, percentOff: [], amountsOff: [], free: [], skinPrice: null,
    changed: false, bills: [], payments: [],
  };
} // prettier-ignore

type Step = typeof step extends fc.Arbitrary<infer S> ? S : never;

/** Does each step and keeps the second books; answers the days on which anything was done. */
async function run(shop: FreshDesk, p: Prices, animals: Kept[], steps: readonly Step[]): Promise<string[]> {
  const days: string[] = [];
  const closings: number[] = [];
  // What lies in the drawer; each morning it is counted.
  let drawer = 500_000;
  const today = async (): Promise<string> => {
    const { today: day } = await shop.call('shop.get', {});
    if (!days.includes(day)) {
      days.push(day);
      await shop.call('till.setFloat', { typed: (drawer / 100).toFixed(2) });
    }
    return day;
  };
  for (const one of steps) {
    shop.wait(60);
    const day = await today();
    const kept = animals[one.which % animals.length]!;
    const { animalId } = kept;
    const newest = kept.bills.at(-1);
    if (one.do === 'wait') shop.wait(one.hours * 3600);
    else if (one.do === 'bill') {
      const answer = await shop.desk.call('bills.create', { animalId, confirmed: true, by: 'MK' });
      expect(answer.ok).toBe(!standing(kept));
      if (answer.ok) kept.bills.push({ ...(await billOf(shop, p, kept)), day, voidDay: null });
    } else if (one.do === 'void bill' && newest) {
      const answer = await shop.desk.call('bills.void', { billId: newest.id, reason: 'slip' });
      expect(answer.ok).toBe(newest.voidDay === null);
      if (answer.ok) {
        newest.voidDay = day;
        kept.changed = false;
      }
    } else if (one.do === 'restore bill' && newest) {
      const answer = await shop.desk.call('bills.restore', { billId: newest.id });
      expect(answer.ok).toBe(newest.voidDay !== null && !kept.changed);
      if (answer.ok && newest.voidDay)
        kept.bills.push({ ...newest, ...(answer.value as { id: number; number: number }), day: newest.voidDay, voidDay: null });
    } else if (one.do === 'pay') {
      const payer = kept.sharer && one.other ? kept.sharer : null;
      const { kind, method } = one;
      const answer = await shop.desk.call('bills.pay', {
        animalId, kind, method, typed: (one.minor / 100).toFixed(2), hunterId: payer, confirmed: true, by: 'RB',
      });
      if (kind !== 'refund') expect(answer.ok).toBe(true);
      else if (one.minor > paid(kept)) expect(answer.ok).toBe(false);
      if (!answer.ok) continue;
      const payment: KeptPayment = { id: (answer.value as { id: number }).id, kind, method, minor: one.minor, day, payer, voidDay: null };
      kept.payments.push(payment);
      if (method === 'cash') drawer += signed(payment);
    } else if (one.do === 'void payment') {
      const payment = kept.payments[one.nth % Math.max(1, kept.payments.length)];
      if (!payment) continue;
      const answer = await shop.desk.call('bills.voidPayment', { paymentId: payment.id, reason: 'slip' });
      if (!answer.ok) continue;
      payment.voidDay = day;
      if (payment.method === 'cash') drawer -= signed(payment);
      if (!one.restored) continue;
      shop.wait(5);
      const { id } = await shop.call('bills.restorePayment', { paymentId: payment.id });
      kept.payments.push({ ...payment, id, day, voidDay: null });
      if (payment.method === 'cash') drawer += signed(payment);
    } else if (one.do === 'adjust') {
      const answer = await shop.desk.call('bills.adjust', { animalId, adjustment: one.adjustment });
      expect(answer.ok).toBe(!standing(kept));
      if (answer.ok) note(kept, one.adjustment);
    } else if (one.do === 'work' && !standing(kept)) {
      await shop.call('bills.addHours', { animalId, lineCode: 'bench', minutes: one.minutes });
      await shop.call('bills.setExtras', { animalId, pricedExtras: one.capes > 0 ? { cape: one.capes } : {} });
      Object.assign(kept, { minutes: kept.minutes + one.minutes, capes: one.capes, changed: true });
    } else if (one.do === 'close') {
      const till = await shop.call('till.get', {});
      if (till.closing) continue;
      expect(till.expectedMinor).toBe(drawer);
      const { id } = await shop.call('till.close', {
        day, currency: 'USD', expectedMinor: till.expectedMinor, seen: seenIn(till), counted: { total: (drawer / 100).toFixed(2) }, note: '', by: 'MK',
      });
      closings.push(id);
    } else if (one.do === 'open') {
      const id = closings.splice(one.which % Math.max(1, closings.length), 1)[0];
      if (id !== undefined) await shop.call('till.void', { id, reason: 'slip' });
    }
  }
  return days;
} // prettier-ignore

function note(kept: Kept, asked: Adjustment): void {
  kept.changed = true;
  if (asked.kind === 'amount off') kept.amountsOff.push(asked.amountMinor ?? 0);
  if (asked.kind === 'percent off') kept.percentOff.push(Math.round((asked.rate ?? 0) * 1000));
  if (asked.kind === 'free line')
    kept.free.push({ minor: asked.amountMinor ?? 0, rate: (asked.taxRate ?? 0) * 1000 });
  if (asked.kind === 'other price') kept.skinPrice = asked.amountMinor ?? 0;
}

async function billOf(shop: FreshDesk, p: Prices, kept: Kept) {
  const { bill } = await shop.call('bills.get', { animalId: kept.animalId });
  const { net, tax } = billed(kept, p);
  expect(bill?.subtotalMinor).toBe(net);
  expect(Math.abs((bill?.taxMinor ?? 0) - tax)).toBeLessThanOrEqual(1 + (bill?.lines.length ?? 0) / 2);
  expect(sum(bill!.lines.map(({ amountMinor, taxMinor }) => amountMinor + taxMinor))).toBe(bill!.totalMinor);
  return { id: bill!.id, number: bill!.number, netMinor: net, taxMinor: bill!.totalMinor - net };
}

/** Canceling an intake that was a mistake: it counts nowhere, stays readable, and its number is given to nobody. */
import { describe, expect, it } from 'vitest';
import { cut, freshDesk, inBook, takeIn } from '../fresh-desk.ts';

const LINE = {
  code: 'cut', label: 'Cutting', basis: 'animal', amountMinor: 9500, rate: null, unit: null, species: null, brought: null,
  product: null, fatSource: null, taxRate: 0,
} as const; // prettier-ignore
const REASON = 'entered twice';

describe('canceling an intake', () => {
  it('takes the animal off the rail and out of the sums, and keeps its record with who and why', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const other = await takeIn(shop);
    await shop.call('animals.cancel', { id, reason: REASON, by: 'MK' });
    const page = await shop.call('animals.get', { id });
    expect(page).toMatchObject({ stage: 'canceled', canceled: { reason: REASON, by: 'MK' }, ticket: '26-0001', lacks: [] });
    const rail = await shop.call('rail.get', {});
    expect(rail.hooks.map((hook) => hook.id)).toEqual([other]);
    expect(rail.counts).toMatchObject({ onRail: 1 });
    const flow = await shop.call('season.flow', {});
    expect(JSON.stringify(flow)).not.toContain('26-0001');
    const [row] = await shop.call('records.list', {});
    expect(row).toMatchObject({ ticket: '26-0001', stage: 'canceled', canceled: { reason: REASON, on: '2026-10-10' }, lacks: [], lateDays: 0 });
    // It was 400 lb; a pound is 453.59237 g (NIST Handbook 44, Appendix C).
    expect(row?.hangingGrams).toBeCloseTo(400 * 453.59237, 3);
    const [entry] = await shop.call('animals.getHistory', { id });
    expect(entry).toMatchObject({ what: 'changed', by: 'MK', reason: REASON, changes: [{ field: 'stage', before: 'hanging', after: 'canceled' }] });
    expect(await shop.call('records.check', {})).toMatchObject({ seasons: [{ entries: 2, gaps: [] }] });
    inBook(shop, (book) => {
      const sums = book.db.prepare('SELECT animal_id FROM animal_sum').pluck().all();
      expect(sums).toEqual([other]);
    });
  }); // prettier-ignore

  it('never gives its ticket number to another animal', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await shop.call('animals.cancel', { id, reason: REASON });
    const next = await shop.call('animals.get', { id: await takeIn(shop) });
    expect(next.ticket).toBe('26-0002');
    expect(await shop.call('animals.find', { text: '26-0001' })).toMatchObject([{ id, stage: 'canceled' }]);
    shop.desk.close();
  });

  it('is undone: the animal is where it was, with its weights in the sums again', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const before = await shop.call('animals.get', { id });
    await shop.call('animals.cancel', { id, reason: REASON });
    await shop.call('animals.reopen', { id, reason: 'undone' });
    expect(await shop.call('animals.get', { id })).toEqual(before);
    await shop.call('animals.cancel', { id, reason: REASON });
    await shop.call('animals.reopen', { id, reason: 'undone again' });
    expect((await shop.call('animals.getHistory', { id })).map(({ reason }) => reason).slice(0, 4)).toEqual([
      'undone again',
      REASON,
      'undone',
      REASON,
    ]);
    inBook(shop, ({ db }) => {
      expect(db.prepare('SELECT * FROM animal_sum').all()).toEqual(db.prepare('SELECT * FROM animal_sum_now').all());
      expect(() => db.prepare("UPDATE intake_cancel SET reason = ''").run()).toThrow('written once');
    });
  }); // prettier-ignore

  it('gives its quote back: the next intake takes it, and the canceled one is not reopened meanwhile', async () => {
    const shop = await freshDesk();
    const quote = await shop.call('quotes.save', {
      species: 'elk', brought: 'skinned', parts: [], stage: 'hanging', typed: '400', hunterName: 'Dana Whitlock',
      instructions: { cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 454, extras: [], note: '' },
    });
    const first = await takeIn(shop, { quoteId: quote.id });
    const again = { hunter: { name: 'Dana Whitlock', phone: '555-0142' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', quoteId: quote.id } as const;
    expect(await shop.problem('intake.takeIn', again)).toMatchObject({ code: 'quote.taken' });
    await shop.call('animals.cancel', { id: first, reason: REASON });
    const second = await takeIn(shop, { quoteId: quote.id });
    const { ticket } = await shop.call('animals.get', { id: second });
    expect(await shop.problem('animals.reopen', { id: first, reason: 'undone' })).toMatchObject({
      kind: 'refused', code: 'reopen.quote-taken', with: { quote: quote.name, ticket },
    });
    await shop.call('animals.cancel', { id: second, reason: REASON });
    await shop.call('animals.reopen', { id: first, reason: 'undone' });
    expect(await shop.problem('intake.takeIn', again)).toMatchObject({ code: 'quote.taken' });
    inBook(shop, ({ db }) =>
      expect(() => db.prepare("INSERT INTO quote_taken SELECT quote_id, 99, at, by FROM quote_taken LIMIT 1").run()).toThrow('another animal has this quote'),
    );
  }); // prettier-ignore

  it('is refused once meat was weighed out, and says to void or move it first', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    await cut(shop, id, { trim: '60' });
    const refusal = await shop.problem('animals.cancel', { id, reason: REASON });
    expect(refusal).toMatchObject({ kind: 'refused', code: 'cancel.weighed', with: { count: 1 } });
    const { weighings } = await shop.call('animals.get', { id });
    const trim = weighings.find(({ part }) => part === 'trim');
    await shop.call('table.void', { weighingId: trim?.id ?? 0, reason: 'another animal' });
    await shop.call('animals.cancel', { id, reason: REASON });
    expect(await shop.problem('animals.cancel', { id, reason: REASON })).toMatchObject({
      code: 'animal.closed',
    });
    shop.desk.close();
  });

  it('is refused while a bill stands or money is on the account', async () => {
    const shop = await freshDesk();
    await shop.call('prices.save', {
      name: 'Ours',
      validFrom: '2020-01-01',
      taxRule: 'per bill',
      lines: [LINE],
    });
    const id = await takeIn(shop);
    const paid = await shop.call('bills.pay', { animalId: id, kind: 'deposit', method: 'cash', typed: '50' });
    const refused = async () => await shop.problem('animals.cancel', { id, reason: REASON });
    expect(await refused()).toMatchObject({
      code: 'cancel.paid',
      with: { paidMinor: 5000, currency: 'USD' },
    });
    const bill = await shop.call('bills.create', { animalId: id, confirmed: true });
    expect(await refused()).toMatchObject({ code: 'cancel.billed', with: { number: 1 } });
    await shop.call('bills.void', { billId: bill.id, reason: 'not this one' });
    await shop.call('bills.voidPayment', { paymentId: paid.id, reason: 'not this one' });
    await shop.call('animals.cancel', { id, reason: REASON });
    for (const call of ['bills.create', 'bills.pay'] as const)
      expect(
        await shop.problem(call, {
          animalId: id,
          kind: 'deposit',
          method: 'cash',
          typed: '5',
          confirmed: true,
        }),
      ).toMatchObject({ code: 'animal.closed', with: { stage: 'canceled' } });
    shop.desk.close();
  });

  it('is refused after a positive result, and nothing is done with a canceled animal', async () => {
    const shop = await freshDesk();
    const sick = await takeIn(shop, { sample: 'L-7' });
    await shop.call('animals.testResult', { id: sick, result: 'positive' });
    expect(await shop.problem('animals.cancel', { id: sick, reason: REASON })).toMatchObject({ code: 'cancel.positive' });
    const id = await takeIn(shop);
    await shop.call('animals.cancel', { id, reason: REASON });
    const closed = { code: 'animal.closed', with: { stage: 'canceled' } };
    expect(await shop.problem('table.weigh', { animalId: id, stage: 'hanging', part: 'carcass', typed: '300' })).toMatchObject(closed);
    expect(await shop.problem('animals.hold', { id, reason: 'smells' })).toMatchObject(closed);
    expect(await shop.problem('animals.dispose', { id, what: 'All', how: 'Landfill', reason: 'spoiled' })).toMatchObject(closed);
    expect(await shop.problem('animals.setStage', { id, stage: 'ready' })).toMatchObject(closed);
    shop.desk.close();
  }); // prettier-ignore

  it('wants a reason', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    expect(await shop.problem('animals.cancel', { id, reason: ' ' })).toMatchObject({ code: 'text.needed' });
    shop.desk.close();
  });
});

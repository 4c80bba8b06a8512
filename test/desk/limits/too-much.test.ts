/** Single entries that once held the desk up or left an animal's page broken for good. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { MAX_MINOR } from '../../../src/core/values/money-sums.ts';
import { checkPrices } from '../../../src/desk/pricing/price-input.ts';
import { deskOn, freshDesk, takeIn } from '../fresh-desk.ts';

type Lines = CallInput<'prices.save'>['lines'];
const LINE: Required<Lines[number]> = {
  code: 'cut', label: 'Cutting', basis: 'animal', amountMinor: 9500, rate: null, unit: null, species: null, brought: null,
  fatSource: null, taxRate: 0, products: [] as string[], kinds: [], recipes: [], least: null,
}; // prettier-ignore

describe('pieces that came in', () => {
  it('are each listed once: one that is listed twice is refused in words', async () => {
    const shop = await freshDesk();
    const parts = [
      { primal: 'haunch', count: 1 },
      { primal: 'haunch', count: 1 },
    ];
    const animal = { hunter: { name: 'Dana' }, species: 'elk', sex: 'male', age: 'adult' } as const;
    expect(await shop.problem('intake.takeIn', { ...animal, brought: 'primals', parts })).toMatchObject({
      kind: 'invalid',
      code: 'pieces.twice',
      field: 'parts',
    });
    expect(shop.broken).toEqual([]);
  });
});

describe('weights', () => {
  it('come with intake in a handful, not by the thousand', async () => {
    const shop = await freshDesk();
    const weights = Array.from({ length: 10_000 }, () => ({ stage: 'received' as const, typed: '1' }));
    const animal = { hunter: { name: 'Dana' }, species: 'elk', sex: 'male', age: 'adult' } as const;
    expect(await shop.problem('intake.takeIn', { ...animal, brought: 'whole', weights })).toMatchObject({
      code: 'list.too-long',
      field: 'weights',
    });
  });

  it('of one animal have a most, which a correction does not touch', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    const again = { animalId: id, stage: 'cut', part: 'trim', typed: '1', confirmed: true } as const;
    for (let n = 1; n < 300; n++) await shop.call('table.weigh', again);
    expect(await shop.problem('table.weigh', again)).toMatchObject({
      kind: 'refused',
      code: 'weights.too-many',
      with: { of: 'animal', count: 300 },
    });
    const { weighings } = await shop.call('animals.get', { id });
    expect(weighings).toHaveLength(300);
    await shop.call('table.correct', { weighingId: weighings.at(-1)?.id ?? 0, typed: '2', confirmed: true });
  }, 60_000);

  it('of a full animal are tried for slips in a bounded number, whatever is asked', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    for (let n = 0; n < 250; n++)
      await shop.call('table.weigh', {
        animalId: id,
        stage: 'cut',
        part: 'trim',
        typed: '1.5',
        confirmed: true,
      });
    await shop.call('animals.get', { id });
    const started = performance.now();
    await shop.call('animals.get', { id });
    // Two seconds before, a tenth of one now; the limit leaves room for a busy computer.
    expect(performance.now() - started).toBeLessThan(1000);
  }, 60_000);
});

describe('payments', () => {
  const pay = { kind: 'payment', method: 'cash', confirmed: true } as const;

  it('that no shop takes are refused when they are entered', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    const problem = await shop.problem('bills.pay', { ...pay, animalId, typed: '90071992547409.91' });
    expect(problem).toMatchObject({ code: 'money.too-large', field: 'typed' });
    await shop.call('bills.pay', { ...pay, animalId, typed: String(MAX_MINOR / 100) });
  });

  it('of the largest amount, as many as one animal takes, add up to the cent', async () => {
    const shop = await freshDesk();
    const animalId = await takeIn(shop);
    for (let n = 0; n < 499; n++)
      await shop.call('bills.pay', { ...pay, animalId, typed: String(MAX_MINOR / 100) });
    await shop.call('bills.pay', { ...pay, animalId, typed: '0.01' });
    expect(await shop.problem('bills.pay', { ...pay, animalId, typed: '1' })).toMatchObject({
      code: 'payment.too-many',
    });
    const { paidMinor } = await shop.call('bills.get', { animalId });
    expect(BigInt(paidMinor)).toBe(499n * BigInt(MAX_MINOR) + 1n);
    expect(await shop.call('records.list', {})).toHaveLength(1);
  }, 60_000);

  it('larger than that in an older book break neither the bill nor the records, and can be taken back', async () => {
    const before = await freshDesk();
    const animalId = await takeIn(before);
    before.desk.close();
    const db = new Database(before.bookPath);
    const add = db.prepare(
      `INSERT INTO payment (animal_id, bill_id, kind, method, amount_minor, currency, paid_on, at, by)
       VALUES (?, NULL, 'payment', 'cash', ${Number.MAX_SAFE_INTEGER}, 'USD', '2026-10-10', '2026-10-10T15:00:00.000Z', '')`,
    );
    for (let n = 0; n < 1025; n++) add.run(animalId);
    db.close();
    const shop = await deskOn(before.bookPath);
    const { payments } = await shop.call('bills.get', { animalId });
    await shop.call('records.list', {});
    for (const { id } of payments)
      await shop.call('bills.voidPayment', { paymentId: id, reason: 'mistyped' });
    expect((await shop.call('bills.get', { animalId })).paidMinor).toBe(0);
    expect(shop.broken).toEqual([]);
  }, 60_000);
});

describe('records', () => {
  it('of more animals than a window shows are refused, and those of fewer days are shown', async () => {
    const before = await freshDesk();
    await takeIn(before, {}, null);
    before.desk.close();
    const db = new Database(before.bookPath);
    const columns = (db.pragma('table_info(animal)') as { name: string }[])
      .map(({ name }) => name)
      .filter((name) => name !== 'id');
    const copied = columns.map((name) =>
      name === 'number' ? 'n.value + 1' : name === 'ticket' ? "'26-' || (n.value + 1)" : `a.${name}`,
    );
    db.exec(`WITH RECURSIVE n (value) AS (SELECT 1 UNION ALL SELECT value + 1 FROM n WHERE value < 20000)
      INSERT INTO animal (${columns.join()}) SELECT ${copied.join()} FROM animal a, n`);
    db.close();
    const shop = await deskOn(before.bookPath);
    expect(await shop.problem('records.list', {})).toMatchObject({
      code: 'records.too-many',
      with: { most: 20_000 },
    });
    expect(await shop.call('records.list', { from: '2027-01-01' })).toEqual([]);
    expect(await shop.call('records.list', { text: '26-19999' })).toHaveLength(1);
    expect(shop.broken).toEqual([]);
  }, 60_000);
});

describe('price lines', () => {
  const species = Array.from({ length: 200 }, (_, n) => `species-${n}`);
  const discounts = (n: number): Lines[number] => ({
    ...LINE, code: `d${n}`, basis: 'percent', amountMinor: null, rate: -0.004, species: species.map((code) => `${code}-${n}`),
  }); // prettier-ignore
  const products = (n: number): Lines[number] => ({
    ...LINE, code: `p${n}`, basis: 'product', unit: 'lb', products: ['links'], species: species.map((code) => `${code}-${n}`),
  }); // prettier-ignore
  const of = (line: (n: number) => Lines[number]): Lines => Array.from({ length: 200 }, (_, n) => line(n));

  it('as many as there may be, each for as many species, are checked in a bounded time', () => {
    const started = performance.now();
    checkPrices(of(discounts) as Parameters<typeof checkPrices>[0]);
    checkPrices(of(products) as Parameters<typeof checkPrices>[0]);
    // Half a minute before (every species times every line), half a second now.
    expect(performance.now() - started).toBeLessThan(5000);
  });

  it('are still found to contradict each other', () => {
    const last = { ...products(0), code: 'again', species: ['species-7-199'] };
    const lines = [...of(products).slice(1), last] as Parameters<typeof checkPrices>[0];
    expect(() => checkPrices(lines)).toThrow(
      expect.objectContaining({ problem: expect.objectContaining({ code: 'price.same-thing' }) }),
    );
  });

  it('are still refused when a kind of animal gets more than everything off', () => {
    const some = (rate: number, more: Partial<Lines[number]>): Lines[number] => ({
      ...LINE, basis: 'percent', amountMinor: null, rate, code: `${rate}`, ...more,
    }); // prettier-ignore
    const check = (lines: Lines): void => checkPrices(lines as Parameters<typeof checkPrices>[0]);
    const over = [some(-0.6, { species: ['elk', 'elk'] }), some(-0.41, { brought: ['whole'] })];
    expect(() => check(over)).toThrow();
    check([some(-0.6, { species: ['elk'] }), some(-0.41, { species: ['moose'] })]);
    check([some(-0.6, { species: ['elk'], brought: ['boned'] }), some(-0.41, { brought: ['whole'] })]);
    check([...over, some(0.02, { code: 'up' })]);
  });

  it('that come to more than any amount are refused with the bill, and say so', async () => {
    const shop = await freshDesk();
    const line = { ...LINE, basis: 'hanging', unit: 'lb', amountMinor: 100_000_000 } as const;
    const lines = ['a', 'b', 'c'].map((code) => ({ ...line, code }));
    await shop.call('prices.save', { name: 'Ours', validFrom: '2020-01-01', lines });
    const animalId = await takeIn(shop);
    expect(await shop.problem('bills.create', { animalId, confirmed: true })).toMatchObject({
      code: 'money.too-large',
    });
  });
});

describe('a cell of a table', () => {
  it('of a hundred thousand opening brackets is looked at once', async () => {
    const shop = await freshDesk();
    const { upload } = await shop.call('import.begin', { name: 'old.csv' });
    const text = `Name,Phone,${'('.repeat(100_000)}\nBo Rask,555-0100,${'1,'.repeat(40)}\n`;
    await shop.call('import.addPiece', { upload, from: 0, base64: Buffer.from(text).toString('base64') });
    const started = performance.now();
    await shop.call('import.preview', { upload, kind: 'hunters' });
    // Nearly two minutes before.
    expect(performance.now() - started).toBeLessThan(5000);
  }, 60_000);
});

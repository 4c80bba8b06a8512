/** Days that cannot be are refused in every call and every table that takes one; doubtful ones are asked about. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CallName } from '../../../src/bridge/contract.ts';
import { FIELDS } from '../../../src/desk/import/fields.ts';
import { allRows } from '../all-rows.ts';
import { previewTable } from '../import/import-file.ts';
import { DATED, DAYS, LOOSE_DAYS, withDay } from './dated-calls.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

/** Years that a slip of the keyboard makes, and what is no day at all. */
const CANNOT_BE = [
  ['0026-11-20', 'date.year'],
  ['1926-11-20', 'date.year'],
  ['1949-12-31', 'date.year'],
  ['2100-01-01', 'date.year'],
  ['2126-11-20', 'date.year'],
  ['9999-12-31', 'date.year'],
  ['2026-02-30', 'date.unreadable'],
  ['11/20/2026', 'date.unreadable'],
  ['', 'date.unreadable'],
] as const;

const ticketOfNext = async (shop: FreshDesk): Promise<string> => {
  const { ticket } = await shop.call('intake.takeIn', {
    hunter: { name: 'Next One' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
  }); // prettier-ignore
  return ticket;
};

describe('every call that takes a day', () => {
  it('stands in the table of this test', () => {
    expect([...new Set(DAYS.map(([call]) => call))].sort()).toEqual(Object.keys(DATED).sort());
    expect(LOOSE_DAYS).toEqual([]);
  });

  it.each(DAYS)('%s refuses at %s what cannot be, and writes nothing', async (call, place) => {
    const shop = await freshDesk();
    const input = (await DATED[call]?.(shop)) ?? {};
    const before = JSON.stringify([...allRows(shop.bookPath)].map(([table, rows]) => [table, [...rows]]));
    for (const [day, code] of CANNOT_BE)
      expect(await shop.problem(call, withDay(input, place, day)), day).toMatchObject({
        kind: 'invalid',
        code,
        field: place,
      });
    expect(JSON.stringify([...allRows(shop.bookPath)].map(([table, rows]) => [table, [...rows]]))).toBe(
      before,
    );
    shop.desk.close();
  });

  it('takes or refuses any day without failing, and the next animal comes in all the same', async () => {
    const any = (min: string, max: string) =>
      fc
        .date({ min: new Date(min), max: new Date(max), noInvalidDate: true })
        .map((one) => one.toISOString().slice(0, 10));
    // Years whose last two digits are this season's are what had stopped intake.
    const sameDigits = fc
      .constantFrom('00', '01', '18', '19', '21', '98')
      .map((century) => `${century}26-11-20`);
    const day = fc.oneof(
      sameDigits,
      any('0001-01-01', '9999-12-30'),
      any('1945-01-01', '2105-01-01'),
      any('2025-06-01', '2027-12-30'),
    );
    const step = fc.record({ at: fc.constantFrom(...DAYS), day, confirmed: fc.boolean() });
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 8 }), async (steps) => {
        const shop = await freshDesk();
        try {
          const tickets = new Set<string>();
          for (const [n, { at, day: tried, confirmed }] of steps.entries()) {
            const [call, place] = at;
            // The inputs of one run must not be in each other's way.
            const input =
              n === 0 || READS.has(call) || AGAIN.has(call) ? await DATED[call]?.(shop) : undefined;
            if (!input) continue;
            const asked = { ...withDay(input, place, tried), ...(READS.has(call) ? {} : { confirmed }) };
            const answer = await shop.desk.call(call, asked);
            if (!answer.ok) expect(answer.problem.kind, JSON.stringify([call, asked])).not.toBe('broken');
            const ticket = await ticketOfNext(shop);
            expect(tickets.has(ticket)).toBe(false);
            expect(ticket).toMatch(/^26-\d{4}$/);
            tickets.add(ticket);
          }
          expect(shop.broken).toEqual([]);
        } finally {
          shop.desk.close();
        }
      }),
      { numRuns: 40 },
    );
  }, 120_000);
});

const READS: ReadonlySet<CallName> = new Set(
  (Object.keys(DATED) as CallName[]).filter((name) => /^(season|books)\./.test(name)),
);
/** Whose preparation may be gone through more than once in one book. */
const AGAIN: ReadonlySet<CallName> = new Set([
  'intake.takeIn',
  'animals.edit',
  'animals.dispose',
  'fat.receive',
  'prices.save',
]);

describe('every field of a table that is a day', () => {
  const fields = FIELDS.animals.filter(({ reads }) => reads === 'date').map(({ code }) => code);

  it('is one of these, and no other kind of table has any', () => {
    expect(fields).toEqual(['receivedOn', 'killDate', 'releasedOn']);
    expect([...FIELDS.hunters, ...FIELDS.weighings].filter(({ reads }) => reads === 'date')).toEqual([]);
  });

  it.each(fields)('%s is refused in a year that cannot be', async (field) => {
    const shop = await freshDesk();
    for (const typed of ['11/20/1926', '11/20/0026', '11/20/2126', '11/20/27']) {
      const days = {
        receivedOn: '11/20/2023',
        killDate: '11/19/2023',
        releasedOn: '11/28/2023',
        [field]: typed,
      };
      const table = [
        'Received,Killed,Picked up,Customer,Animal,Hanging wt,Brought',
        `${days.receivedOn},${days.killDate},${days.releasedOn},Dana,elk,300,whole`,
      ].join('\n');
      const { problems } = await previewTable(shop, 'animals', table, { dates: 'month first' });
      expect(problems.map(({ field: at, problem }) => [at, problem.code])).toContainEqual([
        field,
        'sheet.year',
      ]);
    }
  });

  it('is asked about where a day can be and is hardly meant', async () => {
    const shop = await freshDesk();
    const doubts = async (row: string) => {
      const table = `Received,Killed,Picked up,Customer,Animal,Hanging wt,Brought\n${row},Dana,elk,300,whole\n`;
      const look = await previewTable(shop, 'animals', table, { dates: 'month first' });
      expect(look.problems).toEqual([]);
      return look.doubts.map(({ field, problem }) => [field, problem.code]);
    };
    expect(await doubts('11/20/2023,11/19/2023,11/28/2023')).toEqual([]);
    expect(await doubts('11/20/1998,,')).toEqual([['receivedOn', 'date.long-ago']]);
    expect(await doubts('11/20/2023,11/19/2022,')).toEqual([['killDate', 'date.killed-long-before']]);
    expect(await doubts('11/20/2023,,11/28/2025')).toEqual([['releasedOn', 'date.far-ahead']]);
  });
});

describe('a day that can be and is probably mistyped', () => {
  const animal = {
    hunter: { name: 'Bo' },
    species: 'elk',
    sex: 'male',
    age: 'adult',
    brought: 'skinned',
  } as const;

  it('is asked about when an animal comes in, and taken by a yes to that question', async () => {
    const shop = await freshDesk();
    const asks = (more: object) => shop.problem('intake.takeIn', { ...animal, ...more });
    const far = { receivedOn: '2025-10-10' };
    expect(await asks(far)).toMatchObject({ kind: 'conflict', code: 'date.long-ago', field: 'receivedOn' });
    expect(await asks({ killDate: '2025-10-09' })).toMatchObject({
      code: 'date.killed-long-before',
      field: 'killDate',
    });
    expect(await asks({ promisedOn: '2028-10-20' })).toMatchObject({
      code: 'date.far-ahead',
      field: 'promisedOn',
    });
    const { ticket } = await shop.call('intake.takeIn', { ...animal, ...far, confirmed: ['date.long-ago'] });
    expect(ticket).toBe('25-0001');
  });

  it('does not take a doubtful weight along with the yes to a day', async () => {
    const shop = await freshDesk();
    const input = { ...animal, receivedOn: '2025-10-10', weights: [{ stage: 'received', typed: '3' }] };
    expect(await shop.problem('intake.takeIn', { ...input, confirmed: ['date.long-ago'] })).toMatchObject({
      kind: 'conflict',
      code: 'weight.unlikely',
    });
  });

  it('is asked about in results, disposals, use-by dates and prices', async () => {
    const shop = await freshDesk();
    const id = await takeIn(shop, {
      receivedOn: '2025-01-10',
      killDate: '2025-01-09',
      sample: 'L1',
      confirmed: true,
    });
    const result = { id, result: 'not detected', on: '2026-01-01' };
    expect((await shop.problem('animals.testResult', result)).code).toBe('date.long-ago');
    const disposal = { id, what: 'All', how: 'Landfill', reason: 'spoiled', on: '2026-01-01' };
    expect((await shop.problem('animals.dispose', disposal)).code).toBe('date.long-ago');
    const fat = { source: 'pork-back-fat', typed: '20' };
    expect((await shop.problem('fat.receive', { ...fat, useBy: '2036-10-10' })).code).toBe('date.far-ahead');
    expect((await shop.problem('fat.receive', { ...fat, useBy: '2016-10-10' })).code).toBe('date.long-ago');
    const prices = { name: 'New', taxRule: 'per line', lines: [] };
    expect((await shop.problem('prices.save', { ...prices, validFrom: '2036-10-10' })).code).toBe(
      'date.far-ahead',
    );
    await shop.call('prices.save', { ...prices, taxRule: 'per line', validFrom: '2026-10-01' });
    expect((await shop.problem('prices.save', { ...prices, validFrom: '2025-10-01' })).code).toBe(
      'prices.never-apply',
    );
    await shop.call('animals.testResult', { ...result, result: 'not detected', confirmed: true });
    await shop.call('animals.dispose', { ...disposal, confirmed: true });
    await shop.call('fat.receive', { ...fat, useBy: '2036-10-10', confirmed: true });
    expect(shop.broken).toEqual([]);
  });
});

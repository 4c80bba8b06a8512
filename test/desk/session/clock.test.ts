/** A computer whose clock is wrong makes no season of its own: the desk asks or refuses, and names the clock. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { tempBookPath } from '../../book/temp-book.ts';
import { deskOn, freshDesk, takeIn } from '../fresh-desk.ts';

const YEAR = 365 * 86_400;
const ANIMAL = {
  hunter: { name: 'Bo' },
  species: 'elk',
  sex: 'male',
  age: 'adult',
  brought: 'skinned',
} as const;

describe('a clock with an impossible year', () => {
  it.each(['1970-01-01T00:00:10Z', '2019-12-31T12:00:00Z', '2126-11-20T15:00:00Z'])(
    'refuses to begin a book at %s, and to trust that clock',
    async (start) => {
      const shop = await deskOn(tempBookPath(), start);
      const refused = { kind: 'refused', code: 'clock.impossible' };
      expect(await shop.problem('shop.setUp', { shopName: 'Test Locker', unit: 'lb' })).toMatchObject(
        refused,
      );
      expect(await shop.problem('shop.trustClock', {})).toMatchObject(refused);
      expect((await shop.call('shop.get', {})).clockDoubt?.what).toBe('impossible');
    },
  );

  it.each([
    ['1970', -(56 * YEAR)],
    ['2126', 100 * YEAR],
  ])('writes nothing in a book that was open when the clock jumped to %s', async (_, seconds) => {
    const shop = await freshDesk();
    const id = await takeIn(shop);
    shop.wait(seconds);
    for (const [call, input] of [
      ['intake.takeIn', ANIMAL],
      ['table.weigh', { animalId: id, stage: 'cut', part: 'trim', typed: '60' }],
      ['grinder.start', { fat: 'none', targetFat: null, product: 'Ground', animals: [{ id }] }],
      ['bills.pay', { animalId: id, kind: 'deposit', method: 'cash', typed: '20' }],
      ['coolers.save', { name: 'Cold room', places: 9 }],
    ] as const)
      expect((await shop.problem(call, input)).code).toBe('clock.impossible');
    shop.wait(-seconds);
    expect((await shop.call('intake.takeIn', ANIMAL)).ticket).toBe('26-0002');
    expect(shop.broken).toEqual([]);
  });
});

describe('a clock far from the newest entry', () => {
  it.each([
    ['clock.ahead', 3 * YEAR, '2029'],
    ['clock.behind', -2 * YEAR, '2024'],
  ])(
    '%s: asks before anything is written, and goes by it once somebody looked',
    async (code, seconds, year) => {
      const shop = await freshDesk();
      await takeIn(shop);
      shop.wait(seconds);
      expect(await shop.problem('intake.takeIn', ANIMAL)).toMatchObject({
        kind: 'conflict',
        code,
        with: { today: expect.stringContaining(year) as string, last: '2026-10-10' },
      });
      expect((await shop.call('shop.get', {})).clockDoubt?.what).toBe(code.slice(6));
      await shop.call('shop.trustClock', {});
      expect((await shop.call('shop.get', {})).clockDoubt).toBeNull();
      const { ticket } = await shop.call('intake.takeIn', ANIMAL);
      expect(ticket).toBe(`${year.slice(2)}-0001`);
      // Next week nobody is asked again.
      shop.wait(7 * 86_400);
      expect((await shop.call('intake.takeIn', ANIMAL)).ticket).toBe(`${year.slice(2)}-0002`);
    },
  );

  it('is detected again when the book is reopened, and a confirmed one stays confirmed', async () => {
    const shop = await freshDesk();
    await takeIn(shop);
    shop.desk.close();
    const early = await deskOn(shop.bookPath, '2024-10-10T15:00:00Z');
    expect((await early.problem('intake.takeIn', ANIMAL)).code).toBe('clock.behind');
    await early.call('shop.trustClock', {});
    early.desk.close();
    const later = await deskOn(shop.bookPath, '2024-10-20T15:00:00Z');
    await later.call('intake.takeIn', ANIMAL);
    later.desk.close();
    const earlier = await deskOn(shop.bookPath, '2023-10-20T15:00:00Z');
    expect((await earlier.problem('intake.takeIn', ANIMAL)).code).toBe('clock.behind');
  });

  it('asks nothing in a shop that opens for another season, or on a computer some days behind', async () => {
    const shop = await freshDesk();
    await takeIn(shop);
    shop.wait(YEAR);
    expect((await shop.call('intake.takeIn', ANIMAL)).ticket).toBe('27-0001');
    shop.wait(-3 * 86_400);
    await shop.call('intake.takeIn', ANIMAL);
  });

  it('records who confirmed the clock', async () => {
    const shop = await freshDesk();
    shop.wait(3 * YEAR);
    await shop.call('shop.trustClock', { by: 'MK' });
    const db = new Database(shop.bookPath, { readonly: true });
    const found = db.prepare("SELECT by, after FROM audit WHERE record_id = 'clockTrusted'").get() as {
      by: string;
      after: string;
    };
    db.close();
    expect(found.by).toBe('MK');
    expect(JSON.parse(found.after)).toMatchObject({ at: expect.stringMatching(/^2029-10/) as string });
  });
});

it('shows the season, and forecasts nothing, while all of it is in the future of a clock that was set back', async () => {
  const shop = await freshDesk();
  await takeIn(shop);
  shop.wait(-40 * 86_400);
  const { days, forecast, pace } = await shop.call('season.flow', {});
  expect(days.map(({ on, taken }) => [on, taken])).toEqual([['2026-10-10', 1]]);
  expect([forecast, pace]).toEqual([[], null]);
});

it('forecasts from the data up to its date, where a clock that was set back has a part of the season in the future', async () => {
  const shop = await freshDesk('lb', '2026-09-01T15:00:00Z');
  await takeIn(shop);
  await takeIn(shop);
  shop.wait(20 * 86_400);
  for (let i = 0; i < 3; i++) await takeIn(shop);
  shop.wait(-10 * 86_400);
  const { forecast, days } = await shop.call('season.flow', {});
  expect(days.at(-1)).toMatchObject({ on: '2026-09-21', hanging: 5 });
  // Two hang on the day that the clock shows; on the next no more than a few can.
  expect(forecast[0]?.on).toBe('2026-09-12');
  expect(forecast[0]?.mean).toBeLessThan(4);
});

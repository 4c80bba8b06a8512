/**
 * What the desk caches of a season is as the book stands, whatever was written in between: the second of two looks answers what a
 * desk answers that was opened just then. `writes` tries every call between the two; here stands what no single call does.
 */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { busyShop as anyBusyShop, type BusyShop } from '../busy-shop.ts';
import { lookAnew, lookAtAll } from '../writes/season-looks.ts';

async function busyShop(): Promise<BusyShop> {
  const shop = await anyBusyShop();
  await lookAtAll(shop.desk);
  return shop;
}

describe('a cached season', () => {
  it('is updated after more tests of a grind, and a voided weight of it', async () => {
    const shop = await busyShop();
    const before = JSON.stringify(await lookAtAll(shop.desk));
    await shop.call('grinder.fatTest', { batchId: shop.batchId, percent: 14, method: 'Tester' });
    expect(await lookAtAll(shop.desk)).toEqual(await lookAnew(shop.bookPath));
    const { weighings } = await shop.call('animals.get', { id: shop.done });
    const into = weighings.find(({ stage }) => stage === 'grinder');
    await shop.call('grinder.reopen', { batchId: shop.batchId, reason: 'a wrong tub was weighed' });
    await shop.call('table.void', { weighingId: into?.id ?? 0, reason: 'wrong tub' });
    const after = await lookAtAll(shop.desk);
    expect(after).toEqual(await lookAnew(shop.bookPath));
    expect(JSON.stringify(after)).not.toBe(before);
    shop.desk.close();
  });

  it('is unchanged when a correction fails half-way', async () => {
    const shop = await busyShop();
    const before = await lookAtAll(shop.desk);
    const { weighings } = await shop.call('animals.get', { id: shop.cutting });
    const trim = weighings.find(({ part }) => part === 'trim');
    const problem = await shop.problem('table.correct', {
      weighingId: trim?.id,
      typed: '900',
      reason: 'x',
      confirmed: true,
    });
    expect(problem.code).toBe('weight.more-than-animal');
    expect(await lookAtAll(shop.desk)).toEqual(before);
    shop.desk.close();
  });

  it('is updated after a write of another program', async () => {
    const shop = await busyShop();
    const before = JSON.stringify(await lookAtAll(shop.desk));
    const other = new Database(shop.bookPath);
    other
      .prepare(
        `INSERT INTO weighing (animal_id, stage, part, typed, digits, decimals, unit, grams, source, at, by)
         VALUES (?, 'cut', 'bone', '5', 5, 0, 'lb', 2267.96185, 'typed', '2026-10-10T15:00:00.000Z', '')`,
      )
      .run(shop.done);
    other.close();
    const after = await lookAtAll(shop.desk);
    expect(after).toEqual(await lookAnew(shop.bookPath));
    expect(JSON.stringify(after)).not.toBe(before);
    shop.desk.close();
  });
});

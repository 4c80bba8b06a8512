/**
 * What the desk keeps at hand of a season is as the book stands, whatever was written in between: every call that writes is
 * tried between two looks, and the second answers what a desk answers that was opened just then.
 */
import { copyFileSync, existsSync } from 'node:fs';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { CallName } from '../../../src/bridge/contract.ts';
import { openDesk, type Desk } from '../../../src/desk/desk.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { busyShop as anyBusyShop, BUSY_NOW as NOW, type BusyShop } from '../busy-shop.ts';
import { TRIED } from '../tried-writes.ts';

const ELK = { species: 'elk' } as const;
const LOOKS: readonly [CallName, unknown][] = [
  ['season.yields', {}],
  ['season.yields', ELK],
  ['season.pounds', {}],
  ['season.compare', { a: ELK, b: { species: 'moose' } }],
  ['season.fat', {}],
  ['season.check', {}],
  ['season.flow', {}],
  ['costing.get', {}],
  ['fat.getNeeds', {}],
  ['grinder.get', {}],
];

async function lookAtAll(desk: Desk): Promise<unknown[]> {
  const answers: unknown[] = [];
  for (const [name, input] of LOOKS) answers.push([name, rounded(await desk.call(name, input))]);
  return answers;
}

/** Sums in another order differ in their last digits. */
function rounded(answer: unknown): unknown {
  return JSON.parse(
    JSON.stringify(answer, (_, value: unknown) =>
      typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(9)) : value,
    ),
  ) as unknown;
}

/** The same asked of a desk that is opened now, on a copy of the book as it stands. */
async function lookAnew(bookPath: string): Promise<unknown[]> {
  const copy = tempBookPath();
  for (const end of ['', '-wal']) if (existsSync(bookPath + end)) copyFileSync(bookPath + end, copy + end);
  const desk = await openDesk({ bookPath: copy, clock: () => new Date(NOW) });
  const answers = await lookAtAll(desk);
  desk.close();
  return answers;
}

async function busyShop(): Promise<BusyShop> {
  const shop = await anyBusyShop();
  await lookAtAll(shop.desk);
  return shop;
}

describe('a cached season', () => {
  // What opens another book, or looks at files, changes nothing of this one.
  const tried = (Object.keys(TRIED) as CallName[]).filter(
    (name) => !/^(export|shop\.(openDemo|leaveDemo))/.test(name),
  );

  it.each(tried)('is updated after %s', async (name) => {
    const shop = await busyShop();
    const [call, input] = await TRIED[name]!(shop);
    const before = JSON.stringify(await lookAtAll(shop.desk));
    const answer = await shop.desk.call(call, { ...input, by: 'TR' });
    expect(answer).toMatchObject({ ok: true });
    const after = await lookAtAll(shop.desk);
    expect(after).toEqual(await lookAnew(shop.bookPath));
    // The looks do tell of what matters to a season, or this would compare nothing.
    if (name === 'table.void' || name === 'intake.takeIn') expect(JSON.stringify(after)).not.toBe(before);
    shop.desk.close();
  });

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

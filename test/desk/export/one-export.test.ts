/** One export at a time: each takes the disk and a connection for as long as it lasts. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { FreshDesk } from '../fresh-desk.ts';
import { deskOn, freshDesk, takeIn } from '../fresh-desk.ts';

/** Asks thirty times at once. @returns how many were made, and what the others were told */
async function askOften(shop: FreshDesk, what: 'tables' | 'text' | 'book') {
  const answers = await Promise.all(
    Array.from({ length: 30 }, () => shop.desk.call('export.create', { what })),
  );
  const refused = answers.flatMap((answer) => (answer.ok ? [] : [answer.problem]));
  return { made: answers.length - refused.length, told: new Set(refused.map(({ code }) => code)) };
}

describe('an export requested thirty times', () => {
  it.each(['tables', 'text'] as const)('as %s is made once, and other requests are refused', async (what) => {
    const shop = await freshDesk();
    const { hunter } = await shop.call('animals.get', { id: await takeIn(shop) });
    const asked = askOften(shop, what);
    expect(await shop.problem('export.createForHunter', { id: hunter.id })).toMatchObject({
      kind: 'refused',
      code: 'export.busy',
    });
    expect(await asked).toEqual({ made: 1, told: new Set(['export.busy']) });
    const { id } = await shop.call('export.createForHunter', { id: hunter.id });
    await shop.call('export.getPiece', { id, from: 0 });
    expect(shop.broken).toEqual([]);
  });

  it('as the file of a large book is copied once by the worker, and again afterwards', async () => {
    const before = await freshDesk();
    before.desk.close();
    const db = new Database(before.bookPath);
    db.prepare("INSERT INTO setting (key, value) VALUES ('filler', ?)").run(
      JSON.stringify('x'.repeat(31_000_000)),
    );
    db.close();
    const shop = await deskOn(before.bookPath);
    expect(await askOften(shop, 'book')).toEqual({ made: 1, told: new Set(['export.busy']) });
    expect(await askOften(shop, 'book')).toMatchObject({ made: 1 });
    expect(shop.broken).toEqual([]);
    shop.desk.close();
  }, 60_000);

  it('is made again after a failure', async () => {
    const shop = await freshDesk();
    const before = process.env.TMPDIR;
    process.env.TMPDIR = '/no/such/place';
    try {
      expect(await shop.problem('export.create', { what: 'text' })).toMatchObject({
        code: 'temporary.folder',
      });
    } finally {
      if (before === undefined) delete process.env.TMPDIR;
      else process.env.TMPDIR = before;
    }
    await shop.call('export.create', { what: 'text' });
  });
});

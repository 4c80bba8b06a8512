/** Shops of one ledger teach each other, and row security lets each write its own lessons only. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { LedgerError } from '../../../src/ledger/server/ledger-error.ts';
import { prepare, SHOP_ROLE } from '../../../src/ledger/server/prepare.ts';
import type { Server } from '../../../src/ledger/server/server.ts';
import { OWNER, PASSWORD, startServer, type RealServer } from '../../ledger/server/real-server.ts';
import { endWithRun } from '../../run-folder.ts';
import { deskOn, freshDesk } from '../fresh-desk.ts';
import { giveable, lessonOf } from '../lessons/lesson-of.ts';

let server: RealServer;
let database: string;
beforeAll(async () => {
  server = await startServer({ onStarted: endWithRun });
  database = await server.newDatabase();
  const owner = await server.as(database, OWNER);
  await prepare(owner);
  for (const shop of ['north', 'south'])
    await owner.script(`CREATE ROLE ${shop} LOGIN PASSWORD '${PASSWORD}' IN ROLE ${SHOP_ROLE}`);
  await owner.end();
}, 120_000);
afterAll(() => server.remove());

const SLOW = { timeout: 60_000 };
const refused = (work: Promise<unknown>): Promise<string> =>
  work.then(
    () => 'done',
    (error: unknown) => (error instanceof LedgerError ? error.code : String(error)),
  );
/** A branch of a shop that has told what it learned. */
async function sibling(north: Server, text: string): Promise<number> {
  const [row] = await north.rows(
    `INSERT INTO ledger.shop (book, branch, name, book_version, personal)
     VALUES ('${'a'.repeat(32)}', 1, 'North Locker', 1, false) RETURNING shop`,
  );
  const shop = Number(row?.[0]);
  await north.rows('INSERT INTO ledger.shared_lesson (shop, source, label, body) VALUES ($1, $2, $3, $4)', [
    shop, (JSON.parse(text) as { source: string }).source, 'North Locker', text,
  ]); // prettier-ignore
  return shop;
}

it('starts from what a sibling cut, tells what this shop cut, and writes nobody else’s', async () => {
  const north = await server.as(database, 'north');
  const told = lessonOf();
  const northShop = await sibling(north, told);
  const closed = await freshDesk();
  await giveable(closed);
  closed.desk.close();
  const shop = await deskOn(closed.bookPath, undefined, undefined, { backUpEvery: 3_600_000, lookEvery: 50 });
  const lessons = () => shop.desk.session()?.book.lessons.used() ?? [];
  const quote = {
    species: 'elk', sex: 'male', age: 'adult', brought: 'skinned', parts: [], stage: 'hanging', typed: '400',
    instructions: { cutsShare: 0.4, fat: 'none', targetFat: null, grindProduct: 'Ground', packageGrams: 453.59237, extras: [], note: '' },
    adjustments: [],
  } satisfies CallInput<'quotes.calculate'>; // prettier-ignore
  const others = async () => (await shop.call('quotes.calculate', quote)).restsOn.others;
  expect(await others()).toBeNull();
  await shop.call('ledger.storePassword', { password: PASSWORD });
  await shop.call('ledger.turnOn', { ...server.address(database, 'south'), personal: false });
  await expect.poll(others, SLOW).toEqual({ shops: 1, n: 40 });
  expect(lessons()).toMatchObject([{ via: 'ledger', label: 'North Locker' }]);
  const rows = async (): Promise<unknown[]> =>
    north.rows('SELECT label, body::jsonb ->> $1 FROM ledger.shared_lesson ORDER BY shop', ['animals']);
  await expect.poll(rows, SLOW).toEqual([
    ['North Locker', '40'],
    ['Test Locker', '5'],
  ]);
  const [mine] = await north.rows('SELECT body, shop FROM ledger.shared_lesson WHERE shop <> $1', [
    northShop,
  ]);
  for (const word of ['Whitlock', '555', '26-00', 'Test Locker'])
    expect(String(mine?.[0])).not.toContain(word);

  const south = await server.as(database, 'south');
  const source = (JSON.parse(told) as { source: string }).source;
  expect(
    await south.rows("UPDATE ledger.shared_lesson SET label = 'x' WHERE shop = $1 RETURNING 1", [northShop]),
  ).toEqual([]);
  expect(
    await south.rows('DELETE FROM ledger.shared_lesson WHERE shop = $1 RETURNING 1', [northShop]),
  ).toEqual([]);
  const put = (of: unknown): Promise<unknown> =>
    south.rows(
      `INSERT INTO ledger.shared_lesson (shop, source, label, body) VALUES ($1, $2, 'x', '{}')
       ON CONFLICT (source) DO UPDATE SET body = excluded.body`,
      [Number(of), source],
    );
  expect(await refused(put(northShop))).toBe('no-rights');
  expect(await refused(put(mine?.[1]))).toBe('no-rights');
  expect(await rows()).toEqual([
    ['North Locker', '40'],
    ['Test Locker', '5'],
  ]);

  // Set aside by hand, it stays so, whatever the ledger offers.
  const [taken] = lessons();
  await shop.call('lessons.use', { id: taken?.id ?? 0, used: false });
  expect(await others()).toBeNull();
  await south.end();
  await north.end();
  shop.desk.close();
}, 180_000);

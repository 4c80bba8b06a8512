/** A lost computer's book, made again from the ledger by a desk that has nothing: cancelled, cut short, and taken in. */
import { existsSync, readdirSync } from 'node:fs';
import { dirname } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { NOT_FED } from '../../../src/book/feed/feed-schema.ts';
import { DEMO_NOW } from '../../../src/demo/season.ts';
import type { LedgerRebuild, LedgerView } from '../../../src/desk/contract/ledger.ts';
import { openDesk, type Desk } from '../../../src/desk/desk.ts';
import { prepare, SHOP_ROLE } from '../../../src/ledger/server/prepare.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { demoAt } from '../../demo-copy.ts';
import { bookRows, differences } from '../../ledger/compare.ts';
import { feed } from '../../ledger/feeding.ts';
import { OWNER, PASSWORD, startServer, type RealServer } from '../../ledger/server/real-server.ts';
import { endWithRun } from '../../run-folder.ts';

const SHOP_USER = 'north';
let server: RealServer;
let database: string;
/** The book that is lost. */
let lost: string;
const SLOW = { timeout: 60_000 };

beforeAll(async () => {
  server = await startServer({ onStarted: endWithRun });
  database = await server.newDatabase();
  const owner = await server.as(database, OWNER);
  await prepare(owner);
  await owner.script(`CREATE ROLE ${SHOP_USER} LOGIN PASSWORD '${PASSWORD}' IN ROLE ${SHOP_ROLE}`);
  await owner.end();
  lost = tempBookPath();
  await demoAt(lost);
  const book = openRecordBook(lost, DEMO_NOW, true);
  book.change(() => {
    const { host, port, user, tls, ca } = server.address(database, SHOP_USER);
    book.settings.put('shopName', 'North Locker');
    book.settings.put('ledger', {
      host, port, database, user, tls, ca, on: true, personal: true, branch: 1, since: DEMO_NOW.toISOString(),
    }); // prettier-ignore
    book.feed.begin();
  });
  book.close();
  const fed = feed(lost, () => server.as(database, SHOP_USER), { name: 'North Locker' });
  await fed.until('even', 'stopped');
  await fed.stop();
}, 300_000);
afterAll(() => server.remove());

const access = (more: object = {}): CallInput<'ledger.books'> => ({
  ...server.address(database, SHOP_USER),
  password: PASSWORD,
  ...more,
});
const call = async (desk: Desk, name: string, input: object = {}): Promise<unknown> => {
  const answer = await desk.call(name, input);
  return answer.ok ? answer.value : answer.problem;
};
const at = async (desk: Desk): Promise<LedgerRebuild> =>
  (await call(desk, 'ledger.rebuilding')) as LedgerRebuild;
const partsBeside = (path: string): string[] =>
  readdirSync(dirname(path)).filter((name) => name.includes('.part'));

async function newDesk(broken: unknown[]): Promise<{ desk: Desk; path: string }> {
  const path = tempBookPath();
  const desk = await openDesk({
    bookPath: path,
    clock: () => DEMO_NOW,
    upkeep: { backUpEvery: 3_600_000, lookEvery: 50 },
    onBroken: (error) => void broken.push(error),
  });
  return { desk, path };
}

it('lists the books, and takes one in row by row as it was', async () => {
  const broken: unknown[] = [];
  const { desk, path } = await newDesk(broken);
  expect(await call(desk, 'ledger.books', access({ password: 'wrong' }))).toEqual({
    wrong: 'password',
    books: [],
  });
  const empty = access({ database: await server.newDatabase(), user: OWNER });
  expect(await call(desk, 'ledger.books', empty)).toEqual({ wrong: 'empty', books: [] });
  expect(await call(desk, 'ledger.books', access({ host: 'far.example' }))).toMatchObject({ field: 'tls' });
  expect(await call(desk, 'ledger.openRebuilt')).toMatchObject({ code: 'backup.gone' });
  const animals = bookRows(lost).get('animal')?.length;
  const listed = (await call(desk, 'ledger.books', access())) as { books: [{ shop: number }] };
  expect(listed).toMatchObject({
    wrong: null,
    books: [{ name: 'North Locker', branch: 1, animals, superseded: false }],
  });
  const { shop } = listed.books[0];

  // Somebody changes their mind: nothing is left.
  await call(desk, 'ledger.rebuild', { ...access(), shop });
  expect(await at(desk)).toMatchObject({ kind: 'reading' });
  expect(partsBeside(path)).not.toEqual([]);
  await call(desk, 'ledger.cancelRebuild');
  expect(await at(desk)).toEqual({ kind: 'none' });
  await expect.poll(() => partsBeside(path), SLOW).toEqual([]);

  // The server goes half-way: nothing is left either.
  await call(desk, 'ledger.rebuild', { ...access(), shop });
  await expect
    .poll(
      async () => {
        const now = await at(desk);
        return now.kind === 'reading' && now.rows > 0;
      },
      { ...SLOW, interval: 5 },
    )
    .toBe(true);
  await server.kill();
  await expect.poll(() => at(desk), SLOW).toEqual({ kind: 'failed', why: 'unreachable' });
  expect(partsBeside(path)).toEqual([]);
  await server.start();

  await call(desk, 'ledger.rebuild', { ...access(), shop });
  await expect.poll(async () => (await at(desk)).kind, SLOW).toBe('made');
  const made = partsBeside(path).find((name) => name.endsWith('.part'));
  expect(await at(desk)).toMatchObject({
    contents: { shop: 'North Locker', animals, personal: true, whole: true },
  });
  const without = NOT_FED.filter((name) => !name.endsWith('_lookup'));
  const rebuilt = `${dirname(path)}/${made}`;
  expect(differences(bookRows(lost, without), bookRows(rebuilt, without))).toEqual([]);

  // The book of the new computer stays beside it, and the login goes on as a new branch.
  await call(desk, 'shop.setUp', { shopName: 'Begun meanwhile', unit: 'lb' });
  const { setAside } = (await call(desk, 'ledger.openRebuilt', { by: 'MK' })) as { setAside: string };
  expect(existsSync(setAside)).toBe(true);
  expect(desk.session()?.settings.shopName).toBe('North Locker');
  expect(await at(desk)).toEqual({ kind: 'none' });
  await expect.poll(() => partsBeside(path), SLOW).toEqual([]);
  const view = async (): Promise<LedgerView> => (await call(desk, 'ledger.get')) as LedgerView;
  expect(await view()).toMatchObject({ hasPassword: true, settings: { on: true, branch: 2 } });
  await expect.poll(async () => (await view()).state.kind, SLOW).toBe('even');
  const old = feed(lost, () => server.as(database, SHOP_USER));
  expect(await old.until('stopped', 'even')).toMatchObject({ why: 'superseded' });
  await old.stop();
  desk.close();
  expect(broken).toEqual([]);
}, 180_000);

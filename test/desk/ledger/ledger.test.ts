/** The shop's side of a ledger: switched on, away, wrong, switched off; the desk works on whatever happens there. */
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { CallInput } from '../../../src/bridge/contract.ts';
import { openDesk, type Desk } from '../../../src/desk/desk.ts';
import type { LedgerView } from '../../../src/desk/contract/ledger.ts';
import type { OwnerAnswer, OwnerReport } from '../../../src/desk/contract/owner.ts';
import { prepare } from '../../../src/ledger/server/prepare.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { bookRows, differences, ledgerRows } from '../../ledger/compare.ts';
import { OWNER, PASSWORD, startServer, SUPERUSER, type RealServer } from '../../ledger/server/real-server.ts';
import { endWithRun } from '../../run-folder.ts';

let server: RealServer;
let database: string;
beforeAll(async () => {
  server = await startServer({ onStarted: endWithRun });
  database = await server.newDatabase();
  const owner = await server.as(database, OWNER);
  await prepare(owner);
  await owner.end();
});
afterAll(() => server.remove());

const open = (bookPath: string, broken: unknown[]): Promise<Desk> =>
  openDesk({
    bookPath,
    upkeep: { backUpEvery: 3_600_000, lookEvery: 50 },
    onBroken: (error) => void broken.push(error),
  });
const access = (more: object = {}): CallInput<'ledger.tryIt'> => ({
  ...server.address(database, OWNER),
  password: PASSWORD,
  ...more,
});
/** As the window does: the password first. */
async function turnOn(
  desk: Desk,
  { password = PASSWORD, ...input }: { password?: string; personal: boolean },
): Promise<string> {
  const told: unknown[] = [];
  const stop = desk.onChanged(({ stale }) => told.push(stale?.asks));
  expect(await codeOf(desk, 'ledger.storePassword', { password })).toBe('fine');
  stop();
  expect(told).toEqual([expect.arrayContaining(['ledger.get'])]);
  return codeOf(desk, 'ledger.turnOn', { ...input, by: 'RO' });
}
async function codeOf(desk: Desk, name: string, input: object): Promise<string> {
  const answer = await desk.call(name, input);
  return answer.ok ? 'fine' : answer.problem.code;
}
const view = async (desk: Desk): Promise<LedgerView> => {
  const answer = await desk.call('ledger.get', {});
  if (!answer.ok) throw new Error(answer.problem.code);
  return answer.value as LedgerView;
};
const kind = async (desk: Desk): Promise<string> => (await view(desk)).state.kind;
const SLOW = { timeout: 60_000 };

it('feeds what the desk writes, says what waits, and leaves nothing behind when it is switched off', async () => {
  const path = tempBookPath();
  const broken: unknown[] = [];
  const desk = await open(path, broken);
  await desk.call('shop.setUp', { shopName: 'North Locker', unit: 'lb' });
  expect((await view(desk)).settings).toBeNull();
  expect(await desk.call('ledger.tryIt', access())).toEqual({ ok: true, value: { wrong: null } });
  expect(await turnOn(desk, { ...access(), personal: true })).toBe('fine');
  await expect.poll(() => kind(desk), SLOW).toBe('even');
  const intake = {
    hunter: { name: 'Dana Whitlock' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
    weights: [{ stage: 'hanging', typed: '400' }],
  }; // prettier-ignore
  expect(await codeOf(desk, 'intake.takeIn', intake)).toBe('fine');
  const owner = await server.as(database, OWNER);
  const unequal = async (): Promise<string[]> =>
    differences(bookRows(path), await ledgerRows(owner, 1, path));
  await expect.poll(unequal, SLOW).toEqual([]);
  await owner.end();

  // The password is beside the book, for this account only, and nowhere in it.
  const beside = readdirSync(dirname(path)).filter((name) => name.endsWith('ledger password'));
  const secret = join(dirname(path), beside[0] ?? '');
  expect(readFileSync(secret, 'utf8')).toBe(PASSWORD);
  expect(statSync(secret).mode & 0o777).toBe(0o600);
  expect([...bookRows(path).values()].flat().some((row) => row.includes(PASSWORD))).toBe(false);
  expect(JSON.stringify(await view(desk))).not.toContain(PASSWORD);

  // The desk works on while the server is away.
  await server.kill();
  for (let i = 0; i < 3; i++)
    expect(await codeOf(desk, 'shop.saveSettings', { changes: { lateDays: i } })).toBe('fine');
  await expect.poll(() => kind(desk), SLOW).toBe('waiting');
  const { state, backlog } = await view(desk);
  expect(state).toEqual({ kind: 'waiting', why: 'unreachable' });
  expect(backlog.changes).toBeGreaterThanOrEqual(3);
  expect(Math.abs(Date.parse(backlog.since ?? '') - Date.now())).toBeLessThan(60_000);
  await server.start();
  await expect.poll(() => kind(desk), SLOW).toBe('even');

  expect(await codeOf(desk, 'ledger.turnOff', { by: 'RO' })).toBe('fine');
  expect(await view(desk)).toMatchObject({
    hasPassword: false,
    state: { kind: 'off' },
    settings: { on: false },
  });
  expect(existsSync(secret)).toBe(false);
  desk.close();
  expect(existsSync(`${path}-wal`)).toBe(false);
  expect(broken).toEqual([]);
}, 240_000);

it('shows an owner all shops: under the shop’s own login, or one that reads them all', async () => {
  const path = tempBookPath();
  const broken: unknown[] = [];
  const desk = await open(path, broken);
  await desk.call('shop.setUp', { shopName: 'East Locker', unit: 'lb' });
  const asked = { measure: 'backlog', split: 'species' };
  const ask = async (): Promise<OwnerAnswer<OwnerReport>> => {
    const answer = await desk.call('ledger.getShops', asked);
    if (!answer.ok) throw new Error(answer.problem.code);
    return answer.value as OwnerAnswer<OwnerReport>;
  };
  expect(await ask()).toMatchObject({ wrong: 'no-book', answer: null });
  const other = await server.newDatabase();
  const owner = await server.as(other, OWNER);
  await prepare(owner);
  await owner.script(`CREATE ROLE east LOGIN PASSWORD '${PASSWORD}' IN ROLE ledger_shop;
    CREATE ROLE reports LOGIN PASSWORD '${PASSWORD}' IN ROLE ledger_reader`);
  await owner.end();
  const on = { ...access({ database: other, user: 'east' }), personal: false };
  expect(await turnOn(desk, on)).toBe('fine');
  const intake = {
    hunter: { name: 'Dana Whitlock' }, species: 'elk', sex: 'male', age: 'adult', brought: 'skinned',
    weights: [{ stage: 'hanging', typed: '400' }],
  }; // prettier-ignore
  expect(await codeOf(desk, 'intake.takeIn', intake)).toBe('fine');
  await expect.poll(() => kind(desk), SLOW).toBe('even');
  expect(await ask()).toMatchObject({ wrong: 'one-shop', answer: null });
  const readAs = async (login: object): Promise<unknown> => {
    const answer = await desk.call('ledger.readAs', login);
    return answer.ok ? answer.value : answer.problem.code;
  };
  expect(await readAs({ user: 'reports', password: 'wrong' })).toEqual({ wrong: 'password' });
  expect(await readAs({ user: 'east', password: PASSWORD })).toEqual({ wrong: 'one-shop' });
  expect(await readAs({ user: 'reports', password: PASSWORD })).toEqual({ wrong: null });
  const { answer } = await ask();
  expect(answer?.shops).toMatchObject([{ name: 'East Locker', own: true, whole: true }]);
  // 400 lb on the hook, in kilograms; the example's 45 minutes an animal and 1.984 160 357 751 a kilogram (0.9 a pound).
  expect(answer?.groups).toHaveLength(1);
  expect(answer?.groups[0]).toMatchObject({ n: 1, code: 'elk', speciesName: 'Elk', facts: { unweighed: 0 } });
  expect(answer?.groups[0]?.facts.hours).toBeCloseTo((45 + 0.9 * 400) / 60, 7);
  const rows = await desk.call('ledger.getShopRows', { measure: 'backlog', shop: answer?.shops[0]?.shop });
  expect(rows).toMatchObject({
    ok: true,
    value: { answer: { total: 1, rows: [{ species: ['Elk'], value: 400 * 453.59237 }] } },
  });
  const beside = readdirSync(dirname(path)).filter((name) => name.endsWith('ledger reader'));
  expect(statSync(join(dirname(path), beside[0] ?? '')).mode & 0o777).toBe(0o600);
  // Nothing of an answer is kept for when the server is gone, and a save does not wait for it.
  await server.kill();
  expect(await ask()).toMatchObject({ wrong: 'unreachable', answer: null });
  expect(await codeOf(desk, 'shop.saveSettings', { changes: { lateDays: 7 } })).toBe('fine');
  await server.start();
  expect(await codeOf(desk, 'ledger.turnOff', { by: 'RO' })).toBe('fine');
  expect(readdirSync(dirname(path)).filter((name) => / ledger (reader|password)$/.test(name))).toEqual([]);
  desk.close();
  expect(broken).toEqual([]);
}, 90_000);

it('goes on after the desk was closed, and closes the book whole while it feeds', async () => {
  const path = tempBookPath();
  const broken: unknown[] = [];
  let desk = await open(path, broken);
  await desk.call('shop.setUp', { shopName: 'South Locker', unit: 'lb' });
  expect(await turnOn(desk, { ...access(), personal: true })).toBe('fine');
  await expect.poll(async () => [await kind(desk), ...broken], SLOW).toEqual(['even']);
  desk.close();
  expect(['-wal', '-shm'].filter((ending) => existsSync(path + ending))).toEqual([]);
  desk = await open(path, broken);
  await desk.call('shop.saveSettings', { changes: { lateDays: 5 } });
  await expect.poll(() => kind(desk), SLOW).toBe('even');
  // Somebody decides that this book goes on as a branch of its own.
  expect(await codeOf(desk, 'ledger.newBranch', { by: 'RO' })).toBe('fine');
  const owner = await server.as(database, OWNER);
  const branches = (): Promise<unknown> =>
    owner.rows(
      "SELECT branch, superseded_by IS NULL, whole FROM ledger.shop WHERE name = 'South Locker' ORDER BY 1",
    );
  await expect.poll(branches, SLOW).toEqual([
    [1, false, true],
    [2, true, true],
  ]);
  // Switched off and on, its log begins anew: that is another continuation, and no fork.
  await expect.poll(() => kind(desk), SLOW).toBe('even');
  expect(await codeOf(desk, 'ledger.turnOff', { by: 'RO' })).toBe('fine');
  await desk.call('shop.saveSettings', { changes: { lateDays: 6 } });
  expect(await turnOn(desk, { ...access(), personal: true })).toBe('fine');
  await expect.poll(branches, SLOW).toEqual([
    [1, false, true],
    [2, false, true],
    [3, true, true],
  ]);
  await expect.poll(() => kind(desk), SLOW).toBe('even');
  expect(await desk.call('ledger.tryIt', access())).toEqual({ ok: true, value: { wrong: null } });
  // Somebody else went on with a copy of the book.
  await owner.rows("UPDATE ledger.shop SET mark = mark + 1 WHERE name = 'South Locker' AND branch = 3");
  expect(await desk.call('ledger.tryIt', access())).toEqual({ ok: true, value: { wrong: 'fork' } });
  await owner.end();
  desk.close();
  expect(broken).toEqual([]);
}, 240_000);

it('says in a word what is wrong, and writes nothing', async () => {
  const path = tempBookPath();
  const broken: unknown[] = [];
  const desk = await open(path, broken);
  await desk.call('shop.setUp', { shopName: 'West Locker', unit: 'lb' });
  const tried = async (more: object): Promise<unknown> => {
    const answer = await desk.call('ledger.tryIt', access(more));
    return answer.ok ? answer.value : answer.problem;
  };
  expect(await tried({ password: 'wrong' })).toEqual({ wrong: 'password' });
  expect(await tried({ port: 1 })).toEqual({ wrong: 'unreachable' });
  expect(await tried({ database: 'nowhere' })).toEqual({ wrong: 'no-database' });
  expect(await tried({ user: SUPERUSER })).toEqual({ wrong: 'bypasses' });
  expect(await tried({ database: await server.newDatabase() })).toEqual({ wrong: 'not-prepared' });
  expect(await tried({ tls: 'verified' })).toEqual({ wrong: 'no-tls' });
  // What nobody should try: plain text over a network, no password, no certificate, no port.
  for (const [field, more] of [
    ['tls', { host: 'ledger.example', tls: 'none' }],
    ['password', { password: undefined }],
    ['ca', { ca: 'not a certificate' }],
    ['port', { port: 70_000 }],
  ] as const)
    expect(await tried(more)).toMatchObject({ kind: 'invalid', code: `ledger.${field}`, field });
  expect(await desk.call('ledger.prepare', access())).toEqual({ ok: true, value: { wrong: null } });
  expect(await desk.call('ledger.newBranch', { by: 'RO' })).toEqual({ ok: true, value: { branch: null } });
  expect(await codeOf(desk, 'ledger.turnOff', { by: 'RO' })).toBe('fine');
  expect((await view(desk)).settings).toBeNull();
  const unready = { ...access({ database: await server.newDatabase() }), personal: false, by: 'RO' };
  expect(await codeOf(desk, 'ledger.turnOn', unready)).toBe('ledger.password');
  await turnOn(desk, unready);
  await expect
    .poll(async () => (await view(desk)).state, SLOW)
    .toMatchObject({
      kind: 'stopped',
      why: 'not-prepared',
    });
  expect((await view(desk)).backlog.changes).toBeGreaterThan(0);
  // Once that is mended, the same settings and the kept password start it again.
  const mended = { ...unready, password: undefined };
  expect(await desk.call('ledger.prepare', mended)).toEqual({ ok: true, value: { wrong: null } });
  expect(await codeOf(desk, 'ledger.turnOn', mended)).toBe('fine');
  await expect.poll(() => kind(desk), SLOW).toBe('even');
  await turnOn(desk, { ...access({ password: 'wrong' }), personal: false });
  await expect.poll(() => kind(desk), SLOW).toBe('stopped');
  expect((await view(desk)).state).toMatchObject({ why: 'password' });
  desk.close();
  expect(broken).toEqual([]);
}, 240_000);

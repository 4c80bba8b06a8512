/** A feeder in its thread: the book is one file again once it was told to end, and nothing of it is loaded without a ledger. */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import type { FeedState } from '../../src/ledger/feed/feeder.ts';
import { startThread, type FeederThread } from '../../src/ledger/feed/thread.ts';
import { prepare } from '../../src/ledger/server/prepare.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { endWithRun } from '../run-folder.ts';
import { bookRows, differences, ledgerRows } from './compare.ts';
import { identityAt } from './feeding.ts';
import { fedBook, put } from './fed-book.ts';
import { OWNER, PASSWORD, startServer, type RealServer } from './server/real-server.ts';

// A busy computer takes a thread's start several times as long.
vi.setConfig({ testTimeout: 240_000 });

const PROGRAM = new URL('../../src/ledger/worker.ts', import.meta.url);
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

function thread(bookPath: string): FeederThread & { states: FeedState[]; broken: unknown[] } {
  const states: FeedState[] = [];
  const broken: unknown[] = [];
  const started = startThread(
    PROGRAM,
    {
      bookPath,
      branch: { book: identityAt(bookPath), branch: 1 },
      name: 'Thread',
      privacy: { personal: true, known: [] },
      address: server.address(database, OWNER),
      password: PASSWORD,
    },
    { onState: (state) => void states.push(state), onBroken: (error) => void broken.push(error) },
  );
  return { ...started, states, broken };
}

it('feeds beside the desk, and lets go of the book when the desk closes it', async () => {
  const book = fedBook();
  const one = thread(book.path);
  await expect.poll(() => one.states.at(-1)?.kind, { timeout: 60_000 }).toBe('even');
  put(book, 'beside the desk');
  const sent = (): number => one.states.filter(({ kind }) => kind === 'even').length;
  const before = sent();
  one.wake();
  await expect.poll(sent, { timeout: 60_000 }).toBeGreaterThan(before);
  const owner = await server.as(database, OWNER);
  expect(differences(bookRows(book.path), await ledgerRows(owner, 1, book.path))).toEqual([]);
  await owner.end();
  one.stop();
  book.close();
  expect(['-wal', '-shm'].filter((ending) => existsSync(book.path + ending))).toEqual([]);
  expect(one.broken).toEqual([]);
});

it('is told to end while it starts, and does not open the book any more', () => {
  const book = fedBook();
  const one = thread(book.path);
  one.stop();
  book.close();
  expect(existsSync(`${book.path}-wal`)).toBe(false);
  expect(one.broken).toEqual([]);
});

/** A desk in a process of its own: which modules of PostgreSQL's client it loads, and how many threads it starts. */
function deskAlone(work: string): { loaded: string[]; all: number; threads: number } {
  const source = (file: string): string => JSON.stringify(join(import.meta.dirname, '../../src', file));
  const said = execFileSync(
    process.execPath,
    [
      '--input-type=module',
      '-e',
      `const { registerHooks } = await import('node:module'); const seen = []; let threads = 0;
       registerHooks({ load(url, context, next) { seen.push(url); return next(url, context); } });
       (await import('node:diagnostics_channel')).subscribe('worker_threads', () => threads++);
       const { openDesk } = await import(${source('desk/desk.ts')});
       const desk = await openDesk({ bookPath: ${JSON.stringify(tempBookPath())}, upkeep: { backUpEvery: 1e9, lookEvery: 20 } });
       await desk.call('shop.setUp', { shopName: 'Alone', unit: 'lb' });
       await desk.call('shop.saveSettings', { changes: { lateDays: 5 } });
       await desk.call('ledger.get', {});
       ${work}
       await new Promise((done) => setTimeout(done, 300));
       desk.close();
       const loaded = seen.filter((url) => /node_modules\\/(pg|pg-|pgpass|postgres)/.test(url));
       console.log(JSON.stringify({ loaded, all: seen.length, threads }));`,
    ],
    { encoding: 'utf8' },
  );
  return JSON.parse(said) as ReturnType<typeof deskAlone>;
}

it('loads nothing of PostgreSQL and starts no thread for a desk without a ledger', () => {
  const { loaded, all, threads } = deskAlone('');
  expect({ loaded, threads }).toEqual({ loaded: [], threads: 0 });
  expect(all).toBeGreaterThan(100);
});

it('starts one thread for a desk with a ledger, and loads PostgreSQL in none but that one until it is tried', () => {
  const access = JSON.stringify({ ...server.address(database, OWNER), password: PASSWORD });
  const on = `await desk.call('ledger.storePassword', { password: 'secret' });
    await desk.call('ledger.turnOn', { ...${access}, personal: false, by: 'RO' });`;
  expect(deskAlone(on)).toMatchObject({ threads: 1, loaded: [] });
  expect(deskAlone(`await desk.call('ledger.tryIt', ${access});`).loaded.length).toBeGreaterThan(3);
});

/** Two shops' seasons in one database, on both engines: each as its book has it, and a book made again from it. */
import { copyFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { openRecordBook } from '../../src/book/book.ts';
import { NOT_FED } from '../../src/book/feed/feed-schema.ts';
import { bookFromLedger, booksIn } from '../../src/ledger/rebuild/book-from-ledger.ts';
import { prepare, SHOP_ROLE } from '../../src/ledger/server/prepare.ts';
import type { Server } from '../../src/ledger/server/server.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { demoAt } from '../demo-copy.ts';
import { endWithRun } from '../run-folder.ts';
import { bookRows, differences, ledgerRows } from './compare.ts';
import { feed } from './feeding.ts';
import { NOW } from './fed-book.ts';
import { startLite } from './server/pglite.ts';
import { OWNER, PASSWORD, startServer, SUPERUSER } from './server/real-server.ts';

// A busy computer takes a server's start and a rebuilt book several times as long.
vi.setConfig({ testTimeout: 90_000 });

const SHOPS = ['north', 'south'];
let books: string[];

beforeAll(async () => {
  const demo = tempBookPath();
  await demoAt(demo);
  books = SHOPS.map((shop, i) => {
    const path = i === 0 ? demo : tempBookPath();
    if (path !== demo) copyFileSync(demo, path);
    const book = openRecordBook(path, NOW, true);
    book.change(() => {
      book.settings.put('bookIdentity', String(i + 1).padStart(32, '0'));
      book.settings.put('shopName', shop);
      book.feed.begin();
    });
    book.close();
    return path;
  });
});

interface Engine {
  as(role: string): Promise<Server>;
  end(): Promise<void>;
}

async function real(): Promise<Engine> {
  const server = await startServer({ onStarted: endWithRun });
  const database = await server.newDatabase();
  return { as: (role) => server.as(database, role === 'postgres' ? SUPERUSER : role), end: server.remove };
}

async function lite(): Promise<Engine> {
  const server = await startLite();
  await server.as('postgres')
    .script(`CREATE ROLE ${OWNER} LOGIN CREATEROLE; ALTER DATABASE template1 OWNER TO ${OWNER};
    ALTER DATABASE postgres OWNER TO ${OWNER}`);
  return { as: (role) => Promise.resolve(server.as(role)), end: server.end };
}

describe.each([
  ['PostgreSQL', real],
  ['PostgreSQL as WebAssembly', lite],
])('%s', (_, start) => {
  let engine: Engine;
  beforeAll(async () => {
    engine = await start();
    const owner = await engine.as(OWNER);
    await prepare(owner);
    for (const shop of SHOPS)
      await owner.script(`CREATE ROLE ${shop} LOGIN PASSWORD '${PASSWORD}' IN ROLE ${SHOP_ROLE}`);
    await owner.end();
  });
  afterAll(() => engine.end());

  it('holds both, and gives each back row by row', async () => {
    const feeds = books.map((path, i) =>
      feed(path, () => engine.as(SHOPS[i] ?? ''), {
        name: SHOPS[i] ?? '',
        size: { changes: 5000, bytes: 1e6 },
      }),
    );
    await Promise.all(feeds.map((one) => one.until('even', 'stopped')));
    expect(feeds.flatMap(({ broken }) => broken)).toEqual([]);
    for (const [i, path] of books.entries()) {
      await feeds[i]?.stop();
      const asShop = await engine.as(SHOPS[i] ?? '');
      const [mine, ...others] = await booksIn(asShop);
      expect([mine?.name, others]).toEqual([SHOPS[i], []]);
      const shop = mine?.shop ?? 0;
      expect(differences(bookRows(path), await ledgerRows(asShop, shop, path))).toEqual([]);
      const back = tempBookPath();
      await bookFromLedger(asShop, shop, back, NOW);
      const without = NOT_FED.filter((name) => !name.endsWith('_lookup'));
      expect(differences(bookRows(path, without), bookRows(back, without))).toEqual([]);
      await asShop.end();
    }
  });
});

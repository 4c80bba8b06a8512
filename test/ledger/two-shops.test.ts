/** Two shops' seasons in one database, on both engines: each as its book has it, a book made again from it, and the views of all. */
import { copyFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { openRecordBook } from '../../src/book/book.ts';
import type { Db } from '../../src/book/file/db.ts';
import { NOT_FED } from '../../src/book/feed/feed-schema.ts';
import { bookFromLedger } from '../../src/ledger/rebuild/book-from-ledger.ts';
import { booksIn } from '../../src/ledger/rebuild/books.ts';
import { ownerGroups } from '../../src/ledger/owner/groups.ts';
import { ledgerShops, readsAllShops } from '../../src/ledger/owner/ledger-shops.ts';
import { rowsBehind } from '../../src/ledger/owner/rows-behind.ts';
import { prepare, READER_ROLE, SHOP_ROLE } from '../../src/ledger/server/prepare.ts';
import type { Server } from '../../src/ledger/server/server.ts';
import { VIEWS } from '../../src/ledger/views/views.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { demoAt } from '../demo-copy.ts';
import { rawQuantile } from '../desk/season/raw-season.ts';
import { endWithRun } from '../run-folder.ts';
import { bookRows, differences, ledgerRows } from './compare.ts';
import { feed } from './feeding.ts';
import { NOW } from './fed-book.ts';
import { startLite } from './server/pglite.ts';
import { OWNER, PASSWORD, startServer, SUPERUSER } from './server/real-server.ts';
import { differences as viewDifferences, expectedRows, type ViewRow } from './view-rows.ts';

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
      if (i === 1) makeOther(book.db);
      book.feed.begin();
    });
    book.close();
    return path;
  });
});

/** The second shop's season went otherwise: things were voided, canceled and tested anew, and nobody typed minutes. */
function makeOther(db: Db): void {
  db.exec(`
    INSERT INTO weighing_void (weighing_id, reason, at, by)
      SELECT max(id), 'wrong', '2026-11-30T00:00:00.000Z', 'RO' FROM weighing WHERE id NOT IN (SELECT weighing_id FROM weighing_void)
      GROUP BY stage, part;
    INSERT INTO bill_void (bill_id, reason, at, by) SELECT max(id), 'wrong', '2026-11-30T00:00:00.000Z', 'RO' FROM bill;
    INSERT INTO payment_void (payment_id, reason, at, by) SELECT min(id), 'wrong', '2026-11-30T00:00:00.000Z', 'RO' FROM payment;
    INSERT INTO fat_test (batch_id, fat, sd, method, at, by)
      SELECT min(batch_id), 0.31, 0.01, 'meter', '2026-11-30T00:00:00.000Z', 'RO' FROM fat_test;
    INSERT INTO intake_cancel (animal_id, stage_before, reason, at, by)
      SELECT min(id), 'hanging', 'wrong', '2026-11-30T00:00:00.000Z', 'RO' FROM animal WHERE stage = 'hanging';
    INSERT INTO hold (id, animal_id, reason, sample, at, by)
      SELECT 9001, max(id), 'sample', '', '2026-11-30T00:00:00.000Z', 'RO' FROM animal WHERE stage = 'hanging';
    INSERT INTO hold_result (hold_id, result, sample, lab, reported_on, note, reason, at, by)
      VALUES (9001, 'positive', '', '', '2026-11-30', '', '', '2026-11-30T00:00:00.000Z', 'RO');
    DELETE FROM setting WHERE key = 'costing';
  `);
}

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
    await owner.script(`CREATE ROLE books LOGIN PASSWORD '${PASSWORD}' IN ROLE ${READER_ROLE}`);
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

  it('has views that say of each shop what its book says, and of an older branch nothing', async () => {
    const superuser = await engine.as('postgres');
    await superuser.script(`
      INSERT INTO ledger.shop (book, branch, name, book_version, personal, superseded_by)
        SELECT book, branch + 1, name, book_version, personal, shop FROM ledger.shop WHERE name = 'north'`);
    const tables = await superuser.rows(
      "SELECT relname FROM pg_class WHERE relkind = 'r' AND relnamespace = 'ledger'::regnamespace AND relname NOT IN ('shop', 'version')",
    );
    for (const [table] of tables)
      await superuser.script(`
        INSERT INTO ledger."${String(table)}" SELECT (jsonb_populate_record(t, jsonb_build_object('shop', (SELECT max(shop) FROM ledger.shop)))).*
        FROM ledger."${String(table)}" t WHERE shop = (SELECT min(shop) FROM ledger.shop WHERE name = 'north')`);
    await superuser.end();
    const reader = await engine.as('books');
    const shops = (await ledgerShops(reader)).sort((a, b) => (a.name < b.name ? -1 : 1));
    expect(shops.map(({ name, whole }) => [name, whole])).toEqual(SHOPS.map((name) => [name, true]));
    for (const [i, path] of books.entries()) {
      const shop = shops[i]?.shop ?? 0;
      for (const [view, { columns, rows }] of Object.entries(expectedRows(path))) {
        const found = await reader.rows(`SELECT ${columns.join(', ')} FROM ledger.${view} WHERE shop = $1`, [
          shop,
        ]);
        expect(found.length, view).toBeGreaterThan(0);
        expect(viewDifferences(found as ViewRow[], rows), `${String(SHOPS[i])} ${view}`).toEqual([]);
      }
    }
    await reader.end();
  });

  it('compares the shops as sums by hand do, down to the tickets', async () => {
    const reader = await engine.as('books');
    const south = (await ledgerShops(reader)).find(({ name }) => name === 'south');
    const of = (
      await reader.rows(
        'SELECT shop, season, species FROM ledger.yield_by_animal WHERE take_home_share > 0 LIMIT 1',
      )
    )[0];
    const [season, species] = [Number(of?.[1]), String(of?.[2])];
    const { rows } = expectedRows(books[1] ?? '').yield_by_animal ?? { rows: [] };
    const shares = rows.flatMap((row) =>
      row[0] === season && row[2] === species && typeof row[13] === 'number'
        ? [{ ticket: row[1], share: row[13] }]
        : [],
    );
    const values = shares.map(({ share }) => share);
    const { groups } = await ownerGroups(reader, { measure: 'takeHome', split: 'shop', season, species });
    expect(groups).toHaveLength(2);
    const { spread } = groups.find(({ shop }) => shop === south?.shop) ?? {};
    expect(spread?.n).toBe(values.length);
    for (const [figure, p] of [['low', 0], ['q1', 0.25], ['median', 0.5], ['q3', 0.75], ['high', 1]] as const)
      expect(spread?.[figure], figure).toBeCloseTo(rawQuantile(values, p), 12); // prettier-ignore
    const behind = await rowsBehind(reader, { measure: 'takeHome', shop: south?.shop ?? 0, season, species });
    expect(behind.total).toBe(values.length);
    expect(behind.rows.map(({ name }) => name).toSorted()).toEqual(
      shares.map(({ ticket }) => ticket).toSorted(),
    );
    expect(behind.rows[0]?.value).toBeCloseTo(Math.max(...values), 12);
    // Every measure, however it is split, counts each row of its view once, but a batch for each of its species.
    for (const [measure, view] of [['takeHome', 'yield_by_animal'], ['money', 'money_by_bill'], ['quotes', 'quote_accuracy']] as const)
      for (const split of ['shop', 'season', 'species'] as const) {
        const answer = await ownerGroups(reader, { measure, split });
        const [[count]] = (await reader.rows(`SELECT count(*) FROM ledger.${view}`)) as [[number]];
        expect(answer.groups.reduce((total, { n }) => total + n, 0), `${measure} ${split}`).toBe(count);
      } // prettier-ignore
    const { groups: backlog } = await ownerGroups(reader, { measure: 'backlog', split: 'shop' });
    expect(backlog.map(({ shop, facts }) => [shop === south?.shop, facts.ownMinutes]).toSorted()).toEqual([
      [false, 1],
      [true, 0],
    ]);
    const [fat] = (await ownerGroups(reader, { measure: 'fat', split: 'shop' })).groups;
    expect(fat?.facts.boughtGrams).toBeGreaterThan(0);
    await reader.end();
  });

  it('lets a reader read everything and write nothing, and a shop read only itself', async () => {
    const reader = await engine.as('books');
    const north = await engine.as('north');
    expect([await readsAllShops(reader), await readsAllShops(north)]).toEqual([true, false]);
    const shopsIn = async (server: Server, view: string): Promise<number> =>
      (await server.rows(`SELECT DISTINCT shop FROM ledger.${view}`)).length;
    for (const { name } of VIEWS) {
      expect([await shopsIn(reader, name), await shopsIn(north, name)], name).toEqual([2, 1]);
      await expect(reader.rows(`DELETE FROM ledger.${name}`), name).rejects.toThrow();
    }
    for (const sql of [
      "UPDATE ledger.shop SET name = 'mine'",
      'DELETE FROM ledger.weighing',
      'CREATE TABLE ledger.mine (x integer)',
    ])
      await expect(reader.rows(sql), sql).rejects.toThrow(/denied|no-rights/);
    // Each column says what it is.
    const silent = await reader.rows(`
      SELECT c.relname, a.attname FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0
      WHERE c.relkind = 'v' AND c.relnamespace = 'ledger'::regnamespace AND col_description(c.oid, a.attnum) IS NULL`);
    expect(silent).toEqual([]);
    await reader.end();
    await north.end();
  });
});

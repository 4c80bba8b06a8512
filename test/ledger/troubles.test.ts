/** What can be wrong with a server: a code for each, and nothing written. */
import { createServer, type Server as NetServer } from 'node:net';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { BOOK_VERSION } from '../../src/book/migrations/index.ts';
import { PERSONAL_TEXT } from '../../src/book/privacy/personal-text.ts';
import { checkServer, checkVersion } from '../../src/ledger/server/check.ts';
import { connect, type LedgerAddress } from '../../src/ledger/server/connect.ts';
import { LedgerError, type LedgerCode } from '../../src/ledger/server/ledger-error.ts';
import { prepare, READER_ROLE, SHOP_ROLE } from '../../src/ledger/server/prepare.ts';
import type { Server } from '../../src/ledger/server/server.ts';
import { bookFromLedger } from '../../src/ledger/rebuild/book-from-ledger.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { endWithRun } from '../run-folder.ts';
import { ledgerRows } from './compare.ts';
import { feed } from './feeding.ts';
import { fedBook, NOW, put } from './fed-book.ts';
import { certificates } from './server/certificates.ts';
import { OWNER, PASSWORD, startServer, SUPERUSER, type RealServer } from './server/real-server.ts';

// A busy computer takes a server's start and a rebuilt book several times as long.
vi.setConfig({ testTimeout: 90_000 });

let server: RealServer;
let database: string;
let owner: Server;
let tls: Awaited<ReturnType<typeof certificates>>;

beforeAll(async () => {
  tls = await certificates('127.0.0.1');
  server = await startServer({ onStarted: endWithRun, tls });
  database = await server.newDatabase();
  owner = await server.as(database, OWNER);
  await prepare(owner);
  for (const role of ['north', 'south'])
    await owner.script(`CREATE ROLE ${role} LOGIN PASSWORD '${PASSWORD}' IN ROLE ${SHOP_ROLE}`);
  await owner.script(`CREATE ROLE nobody_here LOGIN PASSWORD '${PASSWORD}'`);
  await owner.script(`CREATE ROLE accountant LOGIN PASSWORD '${PASSWORD}' IN ROLE ${READER_ROLE}`);
});
afterAll(async () => {
  await owner.end();
  await server.remove();
});

async function codeOf(work: () => Promise<unknown>): Promise<LedgerCode | string> {
  try {
    await work();
  } catch (error) {
    return error instanceof LedgerError ? error.code : String(error);
  }
  return 'fine';
}
const checked = async (at: LedgerAddress, password = PASSWORD): Promise<void> => {
  const one = await connect(at, password);
  try {
    await checkServer(one);
  } finally {
    await one.end();
  }
};

describe('a connection', () => {
  it('is refused with the reason', async () => {
    const at = (user: string, more?: Partial<LedgerAddress>) => server.address(database, user, more);
    expect(await codeOf(() => checked(at('north')))).toBe('fine');
    expect(await codeOf(() => checked(at('north'), 'wrong'))).toBe('password');
    expect(await codeOf(() => checked(at('stranger')))).toBe('password');
    expect(await codeOf(() => checked(at('north'), ''))).toBe('password');
    expect(await codeOf(() => checked(server.address('nowhere', 'north')))).toBe('no-database');
    expect(await codeOf(() => checked(at('north', { port: 1 })))).toBe('unreachable');
    expect(await codeOf(() => checked(at('north', { host: 'no-such-host.invalid' })))).toBe('unreachable');
    expect(await codeOf(() => checked(at(SUPERUSER)))).toBe('bypasses');
    expect(await codeOf(() => checked(at('nobody_here')))).toBe('no-rights');
  });

  it('proves who it talks to', async () => {
    const at = (more: Partial<LedgerAddress>) =>
      server.address(database, 'north', { tls: 'verified', ...more });
    expect(await codeOf(() => checked(at({ ca: tls.ca })))).toBe('fine');
    expect(await codeOf(() => checked(at({ ca: null })))).toBe('certificate');
    const stranger = await certificates('127.0.0.1');
    expect(await codeOf(() => checked(at({ ca: stranger.ca })))).toBe('certificate');
    expect(await codeOf(() => checked(at({ ca: tls.ca, host: 'localhost' })))).toBe('certificate-name');
    const plain = await startServer({ onStarted: endWithRun });
    expect(await codeOf(() => checked(plain.address('postgres', OWNER, { tls: 'verified' })))).toBe('no-tls');
    await plain.remove();
  });

  it('knows what is no PostgreSQL', async () => {
    const web = createServer((socket) => {
      socket.on('error', () => undefined);
      socket.once('data', () => socket.end('HTTP/1.1 400 Bad Request\r\n\r\n'));
    });
    const port = await listening(web);
    const at = { host: '127.0.0.1', port, database: 'x', user: 'x', ca: null } as const;
    expect(await codeOf(() => checked({ ...at, tls: 'verified' }))).toBe('not-postgres');
    expect(['not-postgres', 'unreachable']).toContain(await codeOf(() => checked({ ...at, tls: 'none' })));
    web.close();
  });

  it('does not believe a server that says another version than it is', async () => {
    const saying = (version: string, number: string, catalog = true): Server => ({
      rows: (sql) => Promise.resolve(sql.includes('server_version_num') ? [[version, number]] : [[catalog]]),
      script: () => Promise.reject(new Error('nothing is written')),
      transaction: () => Promise.reject(new Error('nothing is written')),
      end: () => Promise.resolve(),
    });
    expect(await codeOf(() => checkVersion(saying('PostgreSQL 18.4', '180004')))).toBe('fine');
    expect(await codeOf(() => checkVersion(saying('PostgreSQL 14.11', '140011')))).toBe('too-old');
    expect(await codeOf(() => checkVersion(saying('PostgreSQL 18.4', '180004', false)))).toBe('not-postgres');
    expect(await codeOf(() => checkVersion(saying('SomethingDB 9', '180004')))).toBe('not-postgres');
    expect(await codeOf(() => checkVersion(saying('PostgreSQL new', 'new')))).toBe('not-postgres');
  });
});

describe('preparing', () => {
  it('is asked for, and a newer schema is left alone', async () => {
    const empty = await server.newDatabase();
    const asOwner = await server.as(empty, OWNER);
    expect(await codeOf(() => checkServer(asOwner))).toBe('not-prepared');
    await prepare(asOwner);
    expect(await codeOf(() => checkServer(asOwner))).toBe('fine');
    const tables = () =>
      asOwner.rows(
        "SELECT oid, relname FROM pg_class WHERE relnamespace = 'ledger'::regnamespace ORDER BY 1",
      );
    const before = await tables();
    expect(await codeOf(() => prepare(asOwner, BOOK_VERSION - 1))).toBe('newer');
    await asOwner.script("UPDATE ledger.version SET version = 99 WHERE part = 'base'");
    expect(await codeOf(() => prepare(asOwner))).toBe('newer');
    expect(await codeOf(() => checkServer(asOwner))).toBe('fine');
    await asOwner.script("UPDATE ledger.version SET least = 99 WHERE part = 'base'");
    expect(await codeOf(() => checkServer(asOwner))).toBe('newer');
    expect(await tables()).toEqual(before);
    await asOwner.end();
  });

  it('needs an owner, and no superuser', async () => {
    const asShop = await server.as(database, 'north');
    expect(await codeOf(() => prepare(asShop))).toBe('no-rights');
    await asShop.end();
  });

  it('can be repeated by two at once', async () => {
    const empty = await server.newDatabase();
    const both = await Promise.all([server.as(empty, OWNER), server.as(empty, OWNER)]);
    expect(await Promise.all(both.map((one) => codeOf(() => prepare(one))))).toEqual(['fine', 'fine']);
    for (const one of both) await one.end();
  });
});

describe('two shops in one database', () => {
  it('see and write their own rows only; the reader sees both and writes none', async () => {
    const [north, south] = [fedBook(), fedBook()];
    for (const book of [north, south])
      book.change(() => book.settings.put('bookIdentity', crypto.randomUUID().replaceAll('-', '')));
    put(south, 'south only');
    const feeds = [north, south].map((book, i) =>
      feed(book.path, () => server.as(database, i === 0 ? 'north' : 'south'), {
        name: i === 0 ? 'North' : 'South',
      }),
    );
    for (const one of feeds) await one.even();
    const asNorth = await server.as(database, 'north');
    const asSouth = await server.as(database, 'south');
    const accountant = await server.as(database, 'accountant');
    const names = (one: Server) => one.rows('SELECT name FROM ledger.shop ORDER BY name');
    expect([await names(asNorth), await names(asSouth)]).toEqual([[['North']], [['South']]]);
    expect(await names(accountant)).toEqual([['North'], ['South']]);
    const [[other]] = (await asSouth.rows('SELECT shop FROM ledger.shop')) as [[number]];
    const [[mine]] = (await asNorth.rows('SELECT shop FROM ledger.shop')) as [[number]];
    expect(await asNorth.rows('SELECT count(*) FROM ledger.animal WHERE shop <> $1', [mine])).toEqual([[0]]);
    expect(
      await codeOf(() => asNorth.rows("INSERT INTO ledger.staff (shop, initials) VALUES ($1, 'x')", [other])),
    ).toBe('no-rights');
    expect(await asNorth.rows('UPDATE ledger.shop SET seq = 0 WHERE shop = $1 RETURNING 1', [other])).toEqual(
      [],
    );
    expect(await asNorth.rows('DELETE FROM ledger.animal WHERE shop = $1 RETURNING 1', [other])).toEqual([]);
    expect(await codeOf(() => asNorth.rows("UPDATE ledger.shop SET role = 'north'"))).toBe('no-rights');
    expect(await codeOf(() => accountant.rows('DELETE FROM ledger.animal'))).toBe('no-rights');
    expect(await codeOf(() => asNorth.script('DROP TABLE ledger.animal'))).toBe('no-rights');
    expect(await codeOf(() => bookFromLedger(asNorth, other, tempBookPath(), NOW))).toBe('empty');
    // Somebody else's book, by a role of another shop.
    const taken = feed(south.path, () => server.as(database, 'north'));
    expect(await taken.until('stopped')).toMatchObject({ why: 'taken' });
    for (const one of [...feeds, taken]) await one.stop();
    for (const one of [asNorth, asSouth, accountant]) await one.end();
    for (const book of [north, south]) book.close();
  });

  it('send nothing of their customers unless the owner says so', async () => {
    const book = fedBook();
    book.change(() => book.settings.put('bookIdentity', crypto.randomUUID().replaceAll('-', '')));
    const MARK = 'Ottoline Marchbanks-Quill';
    const personal = Object.entries(PERSONAL_TEXT).flatMap(([table, { columns }]) =>
      Object.keys(columns).map((column) => ({ table, column })),
    );
    book.db.pragma('foreign_keys = OFF');
    const guards = book.db
      .prepare<[], string>(
        "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND name LIKE '%_no_update'",
      )
      .pluck()
      .all();
    for (const name of guards) book.db.exec(`DROP TRIGGER ${name}`);
    let marked = 0;
    book.db.exec("UPDATE bill_line SET code = 'adjustment-' || position");
    const json = { body: { note: MARK }, answer: { problem: { with: { name: MARK } } } };
    const order = { note: MARK, size: MARK, grindProduct: MARK, extras: [MARK], products: { [MARK]: 1 } };
    for (const { table, column } of personal) {
      const fits = table === 'station_entry' ? json.answer : table === 'load_record' ? json.body : order;
      for (const text of [MARK, JSON.stringify(fits)])
        try {
          marked += book.db.prepare(`UPDATE "${table}" SET "${column}" = ?`).run(text).changes;
        } catch {
          continue; // a column for JSON takes no name, and one for codes neither
        }
    }
    expect(marked).toBeGreaterThan(100);
    const fed = feed(book.path, () => server.as(database, OWNER), {
      privacy: { personal: false, known: [] },
    });
    await fed.even();
    const [[shop]] = (await owner.rows('SELECT shop FROM ledger.shop WHERE NOT personal')) as [[number]];
    const rows = await ledgerRows(owner, shop, book.path);
    const leaked = [...rows]
      .filter(([, all]) => all.some((row) => row.includes('Marchbanks')))
      .map(([table]) => table);
    expect(leaked).toEqual([]);
    // Every weight is there, and the book that comes back keeps to its own rules.
    expect(rows.get('weighing')?.length).toBe(book.db.prepare('SELECT count(*) FROM weighing').pluck().get());
    const back = tempBookPath();
    expect(await codeOf(() => bookFromLedger(owner, shop, back, NOW))).toBe('fine');
    await fed.stop();
    book.close();
  });
});

function listening(one: NetServer): Promise<number> {
  return new Promise((resolve) => {
    one.listen(0, '127.0.0.1', () => {
      const at = one.address();
      resolve(typeof at === 'object' && at ? at.port : 0);
    });
  });
}

/** A book fed to a real PostgreSQL: exactly its rows, once, in order, whatever is in them. */
import { copyFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { openRecordBook, type Book } from '../../src/book/book.ts';
import { newestPlace } from '../../src/book/feed/feed.ts';
import { NOT_FED } from '../../src/book/feed/feed-schema.ts';
import { batchReader, type Batch } from '../../src/ledger/feed/batch.ts';
import { sendBatch } from '../../src/ledger/feed/send.ts';
import { bookFromLedger } from '../../src/ledger/rebuild/book-from-ledger.ts';
import { booksIn } from '../../src/ledger/rebuild/books.ts';
import { BOOK_VERSION } from '../../src/book/migrations/index.ts';
import { prepare } from '../../src/ledger/server/prepare.ts';
import { serverTables } from '../../src/ledger/server/prepared.ts';
import type { Server } from '../../src/ledger/server/server.ts';
import { ledgerTables } from '../../src/ledger/tables/ledger-tables.ts';
import { tempBookPath } from '../book/temp-book.ts';
import { endWithRun } from '../run-folder.ts';
import { bookRows, differences, ledgerRows } from './compare.ts';
import { feed, identityAt, type Fed } from './feeding.ts';
import { fedBook, NOW, put } from './fed-book.ts';
import { OWNER, startServer, type RealServer } from './server/real-server.ts';

// A busy computer takes a server's start and a rebuilt book several times as long.
vi.setConfig({ testTimeout: 90_000 });

let server: RealServer;
let database: string;
let owner: Server;

beforeAll(async () => {
  server = await startServer({ onStarted: endWithRun });
  database = await server.newDatabase();
  owner = await server.as(database, OWNER);
  await prepare(owner);
});
afterAll(async () => {
  await owner.end();
  await server.remove();
});

const connect = (): Promise<Server> => server.as(database, OWNER);
const feeding = (book: Book, more?: Parameters<typeof feed>[2]): Fed => feed(book.path, connect, more);
const shopOf = async (book: Book, branch = 1): Promise<number> =>
  Number(
    (
      await owner.rows('SELECT shop FROM ledger.shop WHERE book = $1 AND branch = $2', [
        identityAt(book.path),
        branch,
      ])
    )[0]?.[0],
  );
/** Each test has a book of its own identity in the one database. */
function ownBook(): Book {
  const book = fedBook();
  book.change(() => book.settings.put('bookIdentity', crypto.randomUUID().replaceAll('-', '')));
  return book;
}
const unequal = async (book: Book, branch = 1): Promise<string[]> =>
  differences(bookRows(book.path), await ledgerRows(owner, await shopOf(book, branch), book.path));

describe('a feed', () => {
  it('sends a row of every table, and the ledger gives the same book back', async () => {
    const book = ownBook();
    const fed = feeding(book);
    await fed.until('even');
    expect(await unequal(book)).toEqual([]);
    await fed.stop();
    const back = tempBookPath();
    const place = await bookFromLedger(owner, await shopOf(book), back, NOW);
    const without = NOT_FED.filter((name) => !name.endsWith('_lookup'));
    expect(differences(bookRows(book.path, without), bookRows(back, without))).toEqual([]);
    expect([...bookRows(back).values()].every((rows) => rows.length > 0)).toBe(true);
    // It goes on in the same branch.
    const again = openRecordBook(back, NOW);
    expect(newestPlace(again.db)).toEqual(place);
    put(again, 'from the new computer');
    const resumed = feeding(again);
    await resumed.until('even');
    expect(await unequal(again)).toEqual([]);
    await resumed.stop();
    // And the lost one, which turns up, may not.
    put(book, 'from the lost computer');
    const lost = feeding(book);
    expect(await lost.until('stopped')).toMatchObject({ why: 'fork' });
    await lost.stop();
    for (const one of [book, again]) one.close();
  });

  it('sends what is added, changed, replaced and deleted, and nothing of what was taken back', async () => {
    const book = ownBook();
    const fed = feeding(book);
    await fed.even();
    put(book, 'first');
    put(book, 'second');
    book.change(() => book.db.exec("INSERT OR REPLACE INTO setting VALUES ('theme', '\"dark\"')"));
    book.change(() => book.db.exec("DELETE FROM setting WHERE key = 'theme'"));
    expect(() =>
      book.change(() => {
        book.settings.put('lateDays', 9);
        throw new Error('not after all');
      }),
    ).toThrow();
    await fed.even();
    expect(await unequal(book)).toEqual([]);
    // Rows that were sent: one with a single key, one with a key of two columns.
    book.change(() =>
      book.db.exec("DELETE FROM setting WHERE key = 'pickupMessage'; DELETE FROM animal_part"),
    );
    await fed.even();
    expect(await unequal(book)).toEqual([]);
    await fed.stop();
    book.close();
  });

  it('goes on where it was, without a gap and without sending anything twice', async () => {
    const book = ownBook();
    for (let round = 0; round < 4; round++) {
      const fed = feeding(book, { size: { changes: 40, bytes: 1e6 } });
      put(book, `round ${round}`);
      await fed.until('sending', 'even');
      await fed.stop();
    }
    const fed = feeding(book);
    await fed.even();
    const taken = await owner.rows('SELECT since, upto FROM ledger.taken WHERE shop = $1 ORDER BY upto', [
      await shopOf(book),
    ]);
    expect(taken.length).toBeGreaterThan(4);
    expect(taken.map(([since]) => since)).toEqual([0, ...taken.slice(0, -1).map(([, upto]) => upto)]);
    expect(taken.at(-1)?.[1]).toBe(newestPlace(book.db).seq);
    expect(await unequal(book)).toEqual([]);
    await fed.stop();
    book.close();
  });

  it('keeps aside what PostgreSQL has no place for, tells why, and gives it back', async () => {
    const book = ownBook();
    const hostile = [
      'a\u0000b',
      '\ud800 alone',
      "'; DROP SCHEMA ledger CASCADE; --",
      '\\u0000',
      '{"a":[1]}',
      '🦌\u202e',
    ];
    hostile.forEach((text, i) =>
      book.db.prepare('INSERT INTO staff (initials, name, active) VALUES (?, ?, 1)').run(`h${i}`, text),
    );
    book.db.prepare('UPDATE hunter SET note = ? WHERE id = (SELECT min(id) FROM hunter)').run('x\u0000y');
    const fed = feeding(book);
    await fed.even();
    const shop = await shopOf(book);
    const kept = await owner.rows(
      'SELECT tbl, why FROM ledger.quarantine WHERE shop = $1 ORDER BY tbl, key',
      [shop],
    );
    expect(kept).toEqual([
      ['hunter', 'zero character'],
      ['staff', 'zero character'],
    ]);
    const back = tempBookPath();
    await bookFromLedger(owner, shop, back, NOW);
    expect(differences(bookRows(book.path), bookRows(back))).toEqual([]);
    // Once mended, it is a row like any other.
    book.change(() => book.db.exec("UPDATE staff SET name = 'plain' WHERE initials IN ('h0', 'h1')"));
    await fed.even();
    expect(await owner.rows('SELECT tbl FROM ledger.quarantine WHERE shop = $1', [shop])).toEqual([
      ['hunter'],
    ]);
    expect(
      await owner.rows("SELECT count(*) FROM ledger.staff WHERE shop = $1 AND name = 'plain'", [shop]),
    ).toEqual([[2]]);
    await fed.stop();
    book.close();
  });

  it('keeps aside a row that the server refuses, and sends the others', async () => {
    const book = ownBook();
    await owner.script("ALTER TABLE ledger.staff ADD CONSTRAINT picky CHECK (name <> 'Quarrel')");
    const add = book.db.prepare('INSERT INTO staff (initials, name, active) VALUES (?, ?, 1)');
    for (let i = 0; i < 30; i++) add.run(`p${i}`, i === 17 ? 'Quarrel' : 'Peace');
    const fed = feeding(book);
    await fed.even();
    const shop = await shopOf(book);
    expect(await owner.rows('SELECT key, why FROM ledger.quarantine WHERE shop = $1', [shop])).toEqual([
      ['["p17"]', 'refused'],
    ]);
    expect(
      await owner.rows("SELECT count(*) FROM ledger.staff WHERE shop = $1 AND name = 'Peace'", [shop]),
    ).toEqual([[29]]);
    await owner.script('ALTER TABLE ledger.staff DROP CONSTRAINT picky');
    await fed.stop();
    book.close();
  });

  it('waits while the server is away, and sends the rest when it is back', async () => {
    const book = ownBook();
    const fed = feeding(book);
    await fed.even();
    await server.kill();
    put(book, 'nobody is there');
    fed.feeder.wake();
    expect(await fed.until('waiting')).toEqual({ kind: 'waiting', why: 'unreachable' });
    put(book, 'the desk goes on');
    await server.start();
    owner = await connect();
    await fed.until('even');
    await fed.even();
    expect(await unequal(book)).toEqual([]);
    expect(fed.broken).toEqual([]);
    await fed.stop();
    book.close();
  });

  it('goes on from a server that was set back to yesterday', async () => {
    const book = ownBook();
    const fed = feeding(book);
    await fed.even();
    await fed.stop();
    await owner.end();
    await server.kill();
    server.keep();
    await server.start();
    put(book, 'today');
    const today = feeding(book);
    await today.even();
    await today.stop();
    await server.kill();
    server.backToKept();
    await server.start();
    owner = await connect();
    expect(await unequal(book)).not.toEqual([]);
    const after = feeding(book);
    await after.even();
    expect(await unequal(book)).toEqual([]);
    await after.stop();
    book.close();
  });
});

describe('a book that is not the ledger’s any more', () => {
  const copyOf = (book: Book): string => {
    const path = tempBookPath();
    book.db.pragma('wal_checkpoint(TRUNCATE)');
    copyFileSync(book.path, path);
    return path;
  };

  it('is not fed after it was set back, and a new branch of it is fed whole', async () => {
    const book = ownBook();
    const yesterday = copyOf(book);
    const fed = feeding(book);
    put(book, 'lost with the computer');
    await fed.even();
    await fed.stop();
    const restored = fedBook(yesterday);
    const old = feeding(restored);
    expect(await old.until('stopped')).toMatchObject({ why: 'ahead', detail: '1' });
    await old.stop();
    put(restored, 'written after');
    put(restored, 'more than was lost');
    const forked = feeding(restored);
    expect(await forked.until('stopped')).toMatchObject({ why: 'fork' });
    await forked.stop();
    const before = await ledgerRows(owner, await shopOf(book), book.path);
    restored.change(() => restored.feed.begin());
    const branch = feeding(restored, { branch: 2 });
    await branch.even();
    expect(await unequal(restored, 2)).toEqual([]);
    // The old branch stays as it was, and nobody feeds it any more.
    expect(differences(await ledgerRows(owner, await shopOf(book), book.path), before)).toEqual([]);
    put(book, 'still here');
    const superseded = feeding(book);
    expect(await superseded.until('stopped')).toMatchObject({ why: 'superseded' });
    const mine = (await booksIn(owner)).filter((one) => one.book === identityAt(book.path));
    expect(mine.map((one) => [one.branch, one.superseded])).toEqual([
      [2, false],
      [1, true],
    ]);
    for (const one of [branch, superseded]) await one.stop();
    for (const one of [book, restored]) one.close();
  });

  it('is fed by one of two computers that write at once; the other stops', async () => {
    const book = ownBook();
    const first = feeding(book);
    await first.even();
    await first.stop();
    const other = fedBook(copyOf(book));
    put(book, 'here');
    put(other, 'there');
    const both = [feeding(book), feeding(other)];
    const ends = await Promise.all(both.map((one) => one.until('even', 'stopped')));
    expect(ends.map(({ kind }) => kind).toSorted()).toEqual(['even', 'stopped']);
    expect(ends.find(({ kind }) => kind === 'stopped')).toMatchObject({ why: 'fork' });
    const winner = ends[0]?.kind === 'even' ? book : other;
    expect(
      differences(bookRows(winner.path), await ledgerRows(owner, await shopOf(book), winner.path)),
    ).toEqual([]);
    for (const one of both) await one.stop();
    for (const one of [book, other]) one.close();
  });

  it('is kept by whoever moves the cursor first; the batch of the other leaves nothing', async () => {
    const book = ownBook();
    const fed = feeding(book);
    await fed.even();
    await fed.stop();
    const other = fedBook(copyOf(book));
    const place = newestPlace(book.db);
    put(book, 'here');
    put(other, 'there');
    const tables = await serverTables(owner);
    const shop = await shopOf(book);
    const sender = { shop, name: 'Both', bookVersion: BOOK_VERSION, personal: true };
    // Both have looked at the ledger, and both may go on from there.
    const batches = [book, other].map(({ db }) =>
      batchReader(db, ledgerTables(db), { personal: true, known: [] })(place),
    );
    const [first, second] = batches as [Batch, Batch];
    await sendBatch(owner, first, sender, tables);
    await expect(sendBatch(owner, second, sender, tables)).rejects.toMatchObject({ code: 'fork' });
    expect(await unequal(book)).toEqual([]);
    // The same batch once more, as after a lost answer, is refused as well: the cursor says that it is there.
    await expect(sendBatch(owner, first, sender, tables)).rejects.toMatchObject({ code: 'fork' });
    for (const one of [book, other]) one.close();
  });

  it('is not fed once it has forgotten where the ledger stands', async () => {
    const book = ownBook();
    const fed = feeding(book);
    await fed.even();
    await fed.stop();
    put(book, 'one');
    put(book, 'two');
    book.change(() => book.feed.prune(newestPlace(book.db).seq, Date.now()));
    const late = feeding(book);
    expect(await late.until('stopped')).toMatchObject({ why: 'forgotten' });
    await late.stop();
    book.close();
  });
});

describe('a newer program and an older server', () => {
  it('loses nothing until the owner prepares the server anew', async () => {
    const old = await server.newDatabase();
    const asOwner = await server.as(old, OWNER);
    await prepare(asOwner, 13);
    const book = fedBook();
    const fed = feed(book.path, () => server.as(old, OWNER));
    await fed.even();
    await fed.stop();
    const others = await asOwner.rows('SELECT count(*) FROM ledger.other');
    expect(Number(others[0]?.[0])).toBeGreaterThan(20);
    const back = tempBookPath();
    await bookFromLedger(asOwner, 1, back, NOW);
    expect(differences(bookRows(book.path), bookRows(back))).toEqual([]);
    await prepare(asOwner);
    expect(await asOwner.rows('SELECT count(*) FROM ledger.other')).toEqual([[0]]);
    expect(await asOwner.rows('SELECT count(*) FROM ledger.hunter WHERE more IS NOT NULL')).toEqual([[0]]);
    expect(differences(bookRows(book.path), await ledgerRows(asOwner, 1, book.path))).toEqual([]);
    await asOwner.end();
    book.close();
  });

  it('clears what lay elsewhere once a book of an older program is sent by this one', async () => {
    const old = await server.newDatabase();
    const asOwner = await server.as(old, OWNER);
    await prepare(asOwner, 13);
    const book = fedBook();
    const before = feed(book.path, () => server.as(old, OWNER));
    await before.even();
    await before.stop();
    // As if that had been the older program: its rows wait until its book has the new keys.
    await asOwner.script('UPDATE ledger.shop SET book_version = 13');
    await prepare(asOwner);
    const lying = async (): Promise<number> =>
      Number((await asOwner.rows('SELECT count(*) FROM ledger.other'))[0]?.[0]);
    expect(await lying()).toBeGreaterThan(20);
    book.change(() => book.feed.repeat());
    const after = feed(book.path, () => server.as(old, OWNER));
    await after.even();
    await after.stop();
    expect(await lying()).toBe(0);
    expect(differences(bookRows(book.path), await ledgerRows(asOwner, 1, book.path))).toEqual([]);
    await asOwner.end();
    book.close();
  });
});

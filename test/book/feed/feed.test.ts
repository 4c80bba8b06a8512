/** The log of changes that a feed reads: it is whole, and a book without a feed has none of it. */
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openRecordBook, type Book } from '../../../src/book/book.ts';
import { addFeed, FEED_TABLE, fedTables, isFed, NOT_FED } from '../../../src/book/feed/feed-schema.ts';
import { newestPlace } from '../../../src/book/feed/feed.ts';
import { checkBuilt } from '../../../src/book/file/open.ts';
import { tablesOf } from '../../../src/book/file/tables.ts';
import { withoutTriggers } from '../../../src/book/file/without-triggers.ts';
import { replaceRows } from '../../../src/book/text/book-from-text.ts';
import { fullBook } from '../full-book.ts';
import { tempBookPath } from '../temp-book.ts';

const NOW = new Date('2026-12-01T12:00:00Z');

function fedBook(): Book {
  const book = openRecordBook(fullBook(), NOW);
  book.change(() => book.feed.begin());
  return book;
}

const log = (book: Book): { tbl: string; key: unknown }[] =>
  book.db.prepare<[], { tbl: string; key: unknown }>(`SELECT tbl, key FROM ${FEED_TABLE} ORDER BY seq`).all();
const put = (book: Book, key: string, value: unknown): void =>
  book.change(() => book.settings.put(key, value));

describe('a book that is not fed', () => {
  it('has neither the log nor one of its triggers', () => {
    const book = openRecordBook(tempBookPath(), NOW);
    const feed = book.db.prepare("SELECT name FROM sqlite_schema WHERE name LIKE 'feed%'").pluck().all();
    expect([feed, isFed(book.db)]).toEqual([[], false]);
    book.close();
  });
});

describe('a book that is fed', () => {
  it('logs every row of every kept table once at the beginning', () => {
    const book = fedBook();
    const counts = new Map(
      tablesOf(book.db)
        .filter(({ name }) => !NOT_FED.includes(name))
        .map(({ name }) => [name, Number(book.db.prepare(`SELECT count(*) FROM "${name}"`).pluck().get())]),
    );
    const logged = new Map<string, number>();
    for (const { tbl } of log(book)) logged.set(tbl, (logged.get(tbl) ?? 0) + 1);
    expect(logged).toEqual(counts);
    expect(counts.size).toBeGreaterThan(80);
    expect([...counts.values()].every((rows) => rows > 0)).toBe(true);
    book.close();
  });

  it('has three triggers for each kept table, and does not open without one of them', () => {
    const book = fedBook();
    const { path } = book;
    expect(
      book.db.prepare("SELECT count(*) FROM sqlite_schema WHERE name LIKE 'feed_of_%'").pluck().get(),
    ).toBe(3 * fedTables(book.db).length);
    book.close();
    openRecordBook(path, NOW).close();
    const other = new Database(path);
    other.exec('DROP TRIGGER feed_of_weighing_insert');
    other.close();
    expect(() => openRecordBook(path, NOW)).toThrow('feed_of_weighing_insert');
  });

  it.each(['insert', 'update', 'delete'])('logs of any kept table each %s', (verb) => {
    const book = fedBook();
    const { db } = book;
    const missed: string[] = [];
    const tryOn = ({ name, key }: { name: string; key: readonly string[] }): void => {
      const row = db.prepare(`SELECT * FROM "${name}" LIMIT 1`).get() as Record<string, unknown>;
      const columns = Object.keys(row);
      const where = key.map((column) => `"${column}" = @${column}`).join(' AND ');
      if (verb === 'update')
        db.prepare(`UPDATE "${name}" SET "${key[0]}" = "${key[0]}" WHERE ${where}`).run(row);
      else db.prepare(`DELETE FROM "${name}" WHERE ${where}`).run(row);
      if (verb === 'insert') {
        db.exec(`DELETE FROM ${FEED_TABLE}`);
        const names = columns.map((one) => `"${one}"`);
        const values = columns.map((one) => `@${one}`);
        db.prepare(`INSERT INTO "${name}" (${names.join()}) VALUES (${values.join()})`).run(row);
      }
    };
    book.change(() => {
      db.pragma('defer_foreign_keys = ON');
      // Also where the book sets its own triggers aside, as in undoing an import.
      withoutTriggers(
        db,
        () => true,
        () => {
          for (const table of fedTables(db)) {
            db.exec(`SAVEPOINT one; DELETE FROM ${FEED_TABLE}`);
            tryOn(table);
            const found = log(book).map(({ tbl }) => tbl);
            if (found.join() !== table.name) missed.push(`${table.name}: ${found.join()}`);
            db.exec('ROLLBACK TO one; RELEASE one');
          }
        },
      );
    });
    expect(missed).toEqual([]);
    book.close();
  });

  it('logs the old key of a row whose key changes, and both sides of a replaced row', () => {
    const book = fedBook();
    const from = newestPlace(book.db).seq;
    book.change(() => book.db.exec("UPDATE setting SET key = 'renamed' WHERE key = 'shopName'"));
    expect(log(book).slice(from)).toEqual([
      { tbl: 'setting', key: 'renamed' },
      { tbl: 'setting', key: 'shopName' },
    ]);
    book.change(() => book.db.exec("INSERT OR REPLACE INTO setting VALUES ('renamed', '1')"));
    expect(log(book).slice(from + 2)).toEqual([
      { tbl: 'setting', key: 'renamed' },
      { tbl: 'setting', key: 'renamed' },
    ]);
    book.close();
  });

  it('logs nothing of a transaction that is taken back', () => {
    const book = fedBook();
    const before = newestPlace(book.db);
    expect(() =>
      book.change(() => {
        book.settings.put('theme', 'dark');
        throw new Error('not after all');
      }),
    ).toThrow('not after all');
    expect(newestPlace(book.db)).toEqual(before);
    book.close();
  });

  it('tells how much waits and since when', () => {
    const book = fedBook();
    const { seq } = newestPlace(book.db);
    expect(book.feed.backlog(seq)).toEqual({ changes: 0, since: null });
    put(book, 'theme', 'dark');
    put(book, 'theme', 'light');
    const { changes, since } = book.feed.backlog(seq);
    expect(changes).toBe(2);
    expect(Math.abs(Date.parse(since ?? '') - Date.now())).toBeLessThan(60_000);
    book.close();
  });

  it('forgets old changes that were sent, and never the last one', () => {
    const book = fedBook();
    const { seq, mark } = newestPlace(book.db);
    const later = Math.floor(Date.now() / 1000) + 60;
    book.change(() => book.feed.prune(seq - 5, later));
    expect(log(book)).toHaveLength(6);
    book.change(() => book.feed.prune(seq, later - 120));
    expect(log(book)).toHaveLength(6);
    book.change(() => book.feed.prune(seq + 100, later));
    expect(newestPlace(book.db)).toEqual({ seq, mark });
    put(book, 'theme', 'dark');
    expect(newestPlace(book.db).seq).toBe(seq + 1);
    book.close();
  });

  it('marks two continuations of one book apart', () => {
    const book = fedBook();
    const { path } = book;
    book.close();
    const marks = [path, `${path}.copy`].map((at, i) => {
      if (i > 0) new Database(path).exec(`VACUUM INTO '${at}'`).close();
      const one = openRecordBook(at, NOW);
      put(one, 'theme', 'dark');
      const place = newestPlace(one.db);
      one.close();
      return place;
    });
    expect(marks[0]).not.toEqual(marks[1]);
  });

  it('is brought up to date with all of its triggers, and logs every row again', () => {
    const path = fullBook(19);
    const old = new Database(path);
    addFeed(old);
    old.close();
    const book = openRecordBook(path, NOW);
    checkBuilt(book.db, path);
    const rows = fedTables(book.db).reduce(
      (sum, { name }) => sum + Number(book.db.prepare(`SELECT count(*) FROM "${name}"`).pluck().get()),
      0,
    );
    expect(new Set(log(book).map(({ tbl, key }) => `${tbl} ${String(key)}`)).size).toBeGreaterThanOrEqual(
      rows,
    );
    put(book, 'theme', 'dark');
    expect(log(book).at(-1)).toEqual({ tbl: 'setting', key: 'theme' });
    book.close();
  });

  it('is fed no more once another book took its place', () => {
    const book = fedBook();
    replaceRows(book.db, fullBook());
    expect(isFed(book.db)).toBe(false);
    checkBuilt(book.db, book.path);
    book.close();
  });

  it('keeps its log out of what is read as records', () => {
    const book = fedBook();
    expect(tablesOf(book.db).map(({ name }) => name)).not.toContain(FEED_TABLE);
    book.close();
  });
});

import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { openRecordBook, type Book } from '../../../src/book/book.ts';
import { DERIVED, TOPICS, WATCHED } from '../../../src/book/changes/topics.ts';
import { tempBookPath } from '../temp-book.ts';

let book: Book;
beforeEach(() => {
  book = openRecordBook(tempBookPath(), new Date('2026-10-10T15:00:00Z'));
});
afterEach(() => book.close());

const rename = (name: string): void => {
  book.db
    .prepare(
      'INSERT INTO setting (key, value) VALUES (?, ?) ON CONFLICT DO UPDATE SET value = excluded.value',
    )
    .run('shopName', JSON.stringify(name));
};

it('watches every table, except those that change only with a watched one', () => {
  const tables = book.db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all();
  const known = new Set([...WATCHED.map(({ table }) => table), ...DERIVED]);
  expect(tables.filter((table) => !known.has(table))).toEqual([]);
  expect([...known].filter((table) => !tables.includes(table))).toEqual([]);
});

it('uses every topic', () => {
  const used = new Set(WATCHED.map(({ topic }) => topic));
  expect(TOPICS.filter((topic) => !used.has(topic))).toEqual(['files']);
});

describe('the version of a topic', () => {
  it('increases with its own changes only', () => {
    const { changes } = book;
    const before = [changes.version('settings'), changes.version('price')];
    book.change(() => rename('One'));
    expect(changes.version('settings')).toBeGreaterThan(before[0]!);
    expect(changes.version('price')).toBe(before[1]);
  });

  it('increases again on a rollback, so that results read meanwhile are outdated', () => {
    const { changes } = book;
    const mark = changes.mark();
    let within = NaN;
    expect(() =>
      book.change(() => {
        rename('Two');
        within = changes.version('settings');
        throw new Error('not after all');
      }),
    ).toThrow('not after all');
    expect(changes.version('settings')).toBeGreaterThan(within);
    expect([...(changes.since(mark)?.topics ?? [])]).toEqual(['settings']);
  });

  it('increases for all topics when another program wrote', () => {
    const { changes } = book;
    const before = TOPICS.map((topic) => changes.version(topic));
    const mark = changes.mark();
    changes.invalidate();
    expect(TOPICS.every((topic, i) => changes.version(topic) > before[i]!)).toBe(true);
    expect(changes.since(mark)).toBeNull();
  });
});

it('reports that anything may have changed after more changes than it keeps', () => {
  const { changes } = book;
  const mark = changes.mark();
  book.change(() => {
    for (let i = 0; i < 1500; i++) rename(`Name ${i}`);
  });
  expect(changes.since(mark)).toBeNull();
});

it('stays known to a cache that keeps up, however many changes there were, and to none that is far behind', () => {
  const { changes } = book;
  const first = changes.mark();
  let last = first;
  for (let n = 0; n < 2_500; n += 1) {
    rename(`Shop ${n}`);
    if (n % 10 > 0) continue;
    expect(changes.since(last)?.topics).toEqual(new Set(['settings']));
    last = changes.mark();
  }
  expect(changes.since(first)).toBeNull();
});

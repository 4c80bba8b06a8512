/** Every book that was ever in use opens with today's program, and not a row of it is lost, or changed but as a step says. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { listBackups } from '../../../src/book/file/backup.ts';
import { BOOK_VERSION } from '../../../src/book/migrations/index.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { tempBookPath } from '../temp-book.ts';

/** A release stores one more file here with `store.ts`, and is tested from then on. */
const stored = readdirSync(import.meta.dirname).filter((name) => /^version-\d+\.sql$/.test(name));
const NOW = new Date('2026-12-01T12:00:00Z');

type Tables = Record<string, unknown[]>;

/** All rows of all tables; with `like` only the tables and columns that are in there. */
function tablesOf(db: Database.Database, like?: Tables): Tables {
  const names = db
    .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    .pluck()
    .all();
  return Object.fromEntries(
    (like ? Object.keys(like) : names).map((name) => {
      const columns = like
        ? Object.keys((like[name]?.[0] ?? {}) as object)
        : db.prepare<[string], string>('SELECT name FROM pragma_table_info(?)').pluck().all(name);
      const wanted = columns.map((column) => `"${column}"`).join(', ') || '*';
      // The first two tell every row from the next; one table has only one.
      const order = columns.length === 1 ? '1' : '1, 2';
      return [name, db.prepare(`SELECT ${wanted} FROM "${name}" ORDER BY ${order}`).all()];
    }),
  );
}

/** The texts of these rows that a later step turns. `typed twice` is none: it was offered with a capital letter. */
const TURNED: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  bill_void: { 'weighed again': 'reason:weighed-again' },
  part_none_void: { 'stated by mistake': 'reason:stated-by-mistake' },
};

function reasonsAsCodes(tables: Tables): Tables {
  const turned = Object.entries(TURNED).flatMap(([name, codes]) =>
    name in tables
      ? [
          [
            name,
            (tables[name] as { reason: string }[]).map((row) => ({
              ...row,
              reason: codes[row.reason] ?? row.reason,
            })),
          ],
        ]
      : [],
  );
  return { ...tables, ...(Object.fromEntries(turned) as Tables) };
}

function storedBook(file: string): { path: string; before: Tables; version: number } {
  const path = tempBookPath();
  const old = new Database(path);
  old.exec(readFileSync(join(import.meta.dirname, file), 'utf8'));
  const before = tablesOf(old);
  const version = Number(old.pragma('user_version', { simple: true }));
  old.close();
  return { path, before, version };
}

it('stores a book of the first version and of every one up to the last but one', () => {
  const versions = stored.map((name) => Number(/\d+/.exec(name)?.[0]));
  for (let version = 1; version < BOOK_VERSION; version++) expect(versions).toContain(version);
});

describe.each(stored)('the book of %s', (file) => {
  it('has a row in every table', () => {
    const { before } = storedBook(file);
    expect(Object.entries(before).filter(([, rows]) => rows.length === 0)).toEqual([]);
  });

  it('is brought up to date without losing a row, or changing more than the steps say, after a backup of it as it was', () => {
    const { path, before, version } = storedBook(file);
    const book = openRecordBook(path, NOW);
    expect(book.db.pragma('user_version', { simple: true })).toBe(BOOK_VERSION);
    expect(tablesOf(book.db, before)).toEqual(reasonsAsCodes(before));
    expect(book.db.pragma('foreign_key_check')).toEqual([]);
    expect(book.db.pragma('integrity_check', { simple: true })).toBe('ok');
    book.close();
    const backups = listBackups(path);
    expect(backups.map(({ beforeUpdate }) => beforeUpdate)).toEqual(version < BOOK_VERSION ? [true] : []);
    for (const backup of backups) {
      const copy = new Database(backup.path, { readonly: true });
      expect(copy.pragma('user_version', { simple: true })).toBe(version);
      expect(tablesOf(copy)).toEqual(before);
      copy.close();
    }
  });

  it('holds the same derived sums and look-ups as a book of today would', () => {
    const { path } = storedBook(file);
    const { db, close } = openRecordBook(path, NOW);
    const views = db
      .prepare<[], string>(
        "SELECT name FROM sqlite_schema WHERE type = 'view' AND (name LIKE '%_sum_now' OR name LIKE '%_lookup_now')",
      )
      .pluck()
      .all();
    expect(views.length).toBeGreaterThan(0);
    for (const view of views) {
      const kept = db.prepare(`SELECT * FROM ${view.replace(/_now$/, '')} ORDER BY 1`).all();
      expect(kept.length).toBeGreaterThan(0);
      expect(kept).toEqual(db.prepare(`SELECT * FROM ${view} ORDER BY 1`).all());
    }
    close();
  });
});

it('leaves a book as it was when bringing it up to date fails', () => {
  const { path, version } = storedBook('version-1.sql');
  const old = new Database(path);
  // Step 5 takes this share for a number.
  old.exec(
    `INSERT INTO instruction (animal_id, body, at, by) SELECT min(id), '{"cutsShare":"all"}', '', '' FROM animal`,
  );
  const before = tablesOf(old);
  old.close();
  expect(() => openRecordBook(path, NOW)).toThrow(/book migration/);
  const after = new Database(path, { readonly: true });
  expect(after.pragma('user_version', { simple: true })).toBe(version);
  expect(tablesOf(after, before)).toEqual(before);
  after.close();
});

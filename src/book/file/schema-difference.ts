/**
 * Whether a book is built as its version says. Tables, indexes, triggers and views are code that runs whenever the book
 * is read or written, so a book is only worked in when each of them is the one that the migrations make.
 */
import Database from 'better-sqlite3';
import { MIGRATIONS } from '../migrations/index.ts';
import type { Db } from './db.ts';
import { shownName } from './shown-name.ts';

/** The first thing found in which a book is not built as its version is. */
export interface SchemaDifference {
  how: 'added' | 'missing' | 'changed';
  what: 'table' | 'index' | 'trigger' | 'view';
  name: string;
}

interface Part {
  type: SchemaDifference['what'];
  name: string;
  tbl_name: string;
  sql: string | null;
}

/** What SQLite makes by itself: the figures of ANALYZE, which `PRAGMA optimize` keeps, word for word as it makes them. */
const OWN_TO_SQLITE: readonly string[] = [
  'CREATE TABLE sqlite_stat1(tbl,idx,stat)',
  'CREATE TABLE sqlite_stat4(tbl,idx,neq,nlt,ndlt,sample)',
];

const expected = new Map<number, Map<string, string>>();

/**
 * Compares a book with its version, object by object, by the very text in which each was written: migrations were never
 * edited after their release, so a book that came up from any earlier version has the same text.
 * @param version 1 to the newest
 * @returns the first difference, missing tables first, or null
 */
export function schemaDifference(db: Db, version: number): SchemaDifference | null {
  const wanted = new Map(schemaOf(version));
  const found = partsOf(db);
  const differences: SchemaDifference[] = [];
  for (const { type, name, tbl_name, sql } of found) {
    const key = keyOf(type, name);
    const text = wanted.get(key);
    wanted.delete(key);
    // Asked for and taken off: a second one of the same name is one too many.
    if (text === undefined) differences.push({ how: 'added', what: type, name });
    else if (text !== textOf(tbl_name, sql)) differences.push({ how: 'changed', what: type, name });
  }
  for (const key of wanted.keys()) {
    const [type, name] = JSON.parse(key) as [SchemaDifference['what'], string];
    differences.push({ how: 'missing', what: type, name });
  }
  const [first] = differences.sort((a, b) => weightOf(b) - weightOf(a));
  return first ? { ...first, name: shownName(first.name) } : null;
}

/** The version that a book is built as, whatever it says of itself; null where it is built as none. */
export function versionBuilt(db: Db): number | null {
  const at = MIGRATIONS.findIndex((_, before) => schemaDifference(db, before + 1) === null);
  return at < 0 ? null : at + 1;
}

/** Every object of a version, by its kind and name, as the migrations make it on an empty book. */
function schemaOf(version: number): Map<string, string> {
  let made = expected.get(version);
  if (!made) {
    const db = new Database(':memory:');
    for (const step of MIGRATIONS.slice(0, version)) db.exec(step);
    made = new Map(
      partsOf(db).map(({ type, name, tbl_name, sql }) => [keyOf(type, name), textOf(tbl_name, sql)]),
    );
    db.close();
    expected.set(version, made);
  }
  return made;
}

function partsOf(db: Db): Part[] {
  return db
    .prepare<[], Part>('SELECT type, name, tbl_name, sql FROM main.sqlite_schema')
    .all()
    .filter(({ type, name, sql }) => !(type === 'table' && name.startsWith('sqlite_') && isOfSqlite(sql)));
}

const isOfSqlite = (sql: string | null): boolean => sql !== null && OWN_TO_SQLITE.includes(sql);
const keyOf = (type: string, name: string): string => JSON.stringify([type, name]);
const textOf = (table: string, sql: string | null): string => JSON.stringify([table, sql]);

/** What is gone weighs most, and a table more than what hangs on it. */
function weightOf({ how, what }: SchemaDifference): number {
  return (what === 'table' ? 4 : 0) + (how === 'missing' ? 2 : how === 'changed' ? 1 : 0);
}

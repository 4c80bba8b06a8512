/**
 * Whether a book has the schema of its version. Indexes, triggers and views are code that runs whenever the book is
 * read or written, so a book is used only when each of them is the one that the migrations create.
 */
import Database from 'better-sqlite3';
import { addFeed, FEED_TABLE } from '../feed/feed-schema.ts';
import { MIGRATIONS } from '../migrations/index.ts';
import type { Db } from './db.ts';
import { shownName } from './shown-name.ts';

/** The first difference from the schema of a book's version. */
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

/**
 * Objects that SQLite creates itself: the statistics tables of ANALYZE, which `PRAGMA optimize` runs, with their
 * exact text.
 */
const OWN_TO_SQLITE: readonly string[] = [
  'CREATE TABLE sqlite_stat1(tbl,idx,stat)',
  'CREATE TABLE sqlite_stat4(tbl,idx,neq,nlt,ndlt,sample)',
];

interface Schema {
  /** The objects in the order in which the migrations create them. */
  parts: readonly Part[];
  /** Their text by kind and name. */
  texts: ReadonlyMap<string, string>;
}

/** By version, and whether the book is fed to a ledger. */
const schemas = new Map<string, Schema>();

/**
 * Compares a book with its version, object by object, by the exact SQL text. Migrations are never edited after
 * release, so a book migrated from any earlier version has the same text. A book that is fed to a ledger has the log of
 * changes as well, with every one of its triggers.
 * @param version 1 to the newest
 * @returns the first difference, missing tables first, or null
 */
export function schemaDifference(db: Db, version: number): SchemaDifference | null {
  const found = partsOf(db);
  const schema = schemaOf(
    version,
    found.some(({ name, type }) => name === FEED_TABLE && type === 'table'),
  );
  if (samePartsInOrder(found, schema.parts)) return null;
  const expected = new Map(schema.texts);
  const differences: SchemaDifference[] = [];
  for (const { type, name, tbl_name, sql } of found) {
    const key = keyOf(type, name);
    const text = expected.get(key);
    expected.delete(key);
    // Each expected object is removed once found: a second one of the same name is extra.
    if (text === undefined) differences.push({ how: 'added', what: type, name });
    else if (text !== textOf(tbl_name, sql)) differences.push({ how: 'changed', what: type, name });
  }
  for (const key of expected.keys()) {
    const [type, name] = JSON.parse(key) as [SchemaDifference['what'], string];
    differences.push({ how: 'missing', what: type, name });
  }
  const [first] = differences.sort((a, b) => weightOf(b) - weightOf(a));
  return first ? { ...first, name: shownName(first.name) } : null;
}

/** The version whose schema a book has, whatever its version number; null for none. */
export function versionBuilt(db: Db): number | null {
  const at = MIGRATIONS.findIndex((_, before) => schemaDifference(db, before + 1) === null);
  return at < 0 ? null : at + 1;
}

/** Every object of a version, as the migrations, and the log of a fed book, create it in an empty book. */
function schemaOf(version: number, fed: boolean): Schema {
  const key = `${version} ${fed}`;
  let made = schemas.get(key);
  if (!made) {
    const db = new Database(':memory:');
    for (const step of MIGRATIONS.slice(0, version)) db.exec(step);
    if (fed) addFeed(db);
    const parts = partsOf(db);
    const texts = parts.map(
      ({ type, name, tbl_name, sql }) => [keyOf(type, name), textOf(tbl_name, sql)] as const,
    );
    made = { parts, texts: new Map(texts) };
    db.close();
    schemas.set(key, made);
  }
  return made;
}

function partsOf(db: Db): Part[] {
  return db
    .prepare<[], Part>('SELECT type, name, tbl_name, sql FROM main.sqlite_schema')
    .all()
    .filter(({ type, name, sql }) => !(type === 'table' && name.startsWith('sqlite_') && isOfSqlite(sql)));
}

/** The usual case, decided without making a key for each object. */
function samePartsInOrder(found: readonly Part[], expected: readonly Part[]): boolean {
  return (
    found.length === expected.length &&
    found.every((part, at) => {
      const other = expected[at];
      return (
        part.type === other?.type &&
        part.name === other.name &&
        part.tbl_name === other.tbl_name &&
        part.sql === other.sql
      );
    })
  );
}

const isOfSqlite = (sql: string | null): boolean => sql !== null && OWN_TO_SQLITE.includes(sql);
const keyOf = (type: string, name: string): string => JSON.stringify([type, name]);
const textOf = (table: string, sql: string | null): string => JSON.stringify([table, sql]);

/** Missing objects rank highest, and a table above its dependents. */
function weightOf({ how, what }: SchemaDifference): number {
  return (what === 'table' ? 4 : 0) + (how === 'missing' ? 2 : how === 'changed' ? 1 : 0);
}

/** The tables of a book as a ledger has them: the same names and columns, and the shop in front of each key. */
import Database from 'better-sqlite3';
import { fedTables } from '../../book/feed/feed-schema.ts';
import type { Db } from '../../book/file/db.ts';
import { MIGRATIONS } from '../../book/migrations/index.ts';

/** Each type of a strict table of the book, and its type in PostgreSQL. Moments stay text: a cast would drop their `.000`. */
const SERVER_TYPES = {
  INTEGER: 'bigint',
  REAL: 'double precision',
  TEXT: 'text',
  BLOB: 'bytea',
} as const;
export type BookType = keyof typeof SERVER_TYPES;

export interface LedgerColumn {
  name: string;
  type: BookType;
}

export interface LedgerTable {
  name: string;
  /** Columns of the primary key in the book. */
  key: readonly string[];
  columns: readonly LedgerColumn[];
}

export const serverType = (type: BookType): string => SERVER_TYPES[type];

/** Columns of the server's tables that are none of the book. */
export const SHOP = 'shop';
/** What a program newer than the server's tables knows besides, by column, as JSON. */
export const MORE = 'more';

/**
 * The tables that a ledger has of an open book.
 * @throws Error for a column of another type, or of a name that the ledger itself uses
 */
export function ledgerTables(db: Db): LedgerTable[] {
  const columns = db.prepare<[string], { name: string; type: string }>(
    'SELECT name, type FROM pragma_table_info(?) ORDER BY cid',
  );
  return fedTables(db).map(({ name, key }) => ({
    name,
    key,
    columns: columns.all(name).map((column) => ({ name: column.name, type: typeOf(name, column) })),
  }));
}

/** The tables that a book of a version has. */
export function ledgerTablesOf(version: number): LedgerTable[] {
  const db = new Database(':memory:');
  try {
    for (const step of MIGRATIONS.slice(0, version)) db.exec(step);
    return ledgerTables(db);
  } finally {
    db.close();
  }
}

function typeOf(table: string, { name, type }: { name: string; type: string }): BookType {
  if (!Object.hasOwn(SERVER_TYPES, type) || name === SHOP || name === MORE)
    throw new Error(`a ledger has no place for ${table}.${name}`);
  return type as BookType;
}

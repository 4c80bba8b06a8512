/** Compares a book with what a ledger has of it, and two books, row by row past the code that sends and fetches them. */
import Database from 'better-sqlite3';
import { tablesOf } from '../../src/book/file/tables.ts';
import { NOT_FED } from '../../src/book/feed/feed-schema.ts';
import type { Server } from '../../src/ledger/server/server.ts';

/** Rows that differ, as `table: n`; an empty list is equality. */
export type Differences = string[];

/** Rows of a book's fed tables as texts, by table. */
export function bookRows(path: string, without = NOT_FED): Map<string, string[]> {
  const db = new Database(path, { readonly: true });
  try {
    return new Map(
      tablesOf(db)
        .filter(({ name }) => !without.includes(name))
        .map(({ name, columns }) => [
          name,
          db
            .prepare(`SELECT ${columns.map((column) => `"${column}"`).join()} FROM "${name}"`)
            .raw()
            .all()
            .map((row) => JSON.stringify(row))
            .filter((row) => !row.startsWith('["backupLock"'))
            .toSorted(),
        ]),
    );
  } finally {
    db.close();
  }
}

/** The same rows as the ledger has them: asked table by table with the book's own list of columns. */
export async function ledgerRows(server: Server, shop: number, path: string): Promise<Map<string, string[]>> {
  const db = new Database(path, { readonly: true });
  const tables = tablesOf(db).filter(({ name }) => !NOT_FED.includes(name));
  db.close();
  const rows = new Map<string, string[]>();
  for (const { name, columns } of tables) {
    const found = await server.rows(
      `SELECT ${columns.map((column) => `"${column}"`).join()} FROM ledger."${name}" WHERE shop = $1`,
      [shop],
    );
    const kept = await server.rows('SELECT body FROM ledger.quarantine WHERE shop = $1 AND tbl = $2', [
      shop,
      name,
    ]);
    rows.set(
      name,
      [...found.map((row) => JSON.stringify(row)), ...kept.map(([body]) => String(body))].toSorted(),
    );
  }
  return rows;
}

export function differences(one: Map<string, string[]>, other: Map<string, string[]>): Differences {
  return [...new Set([...one.keys(), ...other.keys()])].flatMap((table) => {
    const [here, there] = [one.get(table) ?? [], other.get(table) ?? []];
    const [inHere, inThere] = [new Set(here), new Set(there)];
    const differ =
      here.filter((row) => !inThere.has(row)).length + there.filter((row) => !inHere.has(row)).length;
    return differ > 0 || here.length !== there.length
      ? [`${table}: ${differ}, ${here.length} and ${there.length} rows`]
      : [];
  });
}

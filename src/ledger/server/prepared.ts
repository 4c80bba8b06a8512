/** What a database was prepared with. */
import { SHOP, type LedgerTable } from '../tables/ledger-tables.ts';
import { BASE_TABLES } from './base.ts';
import { one, type Server } from './server.ts';

export interface PreparedVersions {
  /** 0: the database was never prepared. */
  base: number;
  /** The version of the book whose tables it has. */
  tables: number;
  /** The oldest version of the base that a program must know to write. */
  least: number;
  /** Of the views; 0 where there are none. */
  views: number;
}

export async function preparedVersions(server: Server): Promise<PreparedVersions> {
  if ((await one(server, "SELECT to_regclass('ledger.version')::text")) === null)
    return { base: 0, tables: 0, least: 0, views: 0 };
  const found = new Map(
    (await server.rows('SELECT part, version, least FROM ledger.version')).map(([part, version, least]) => [
      part,
      { version: Number(version), least: Number(least) },
    ]),
  );
  const base = found.get('base');
  const versionOf = (part: string): number => found.get(part)?.version ?? 0;
  return {
    base: versionOf('base'),
    least: base?.least ?? 0,
    tables: versionOf('tables'),
    views: versionOf('views'),
  };
}

export interface ServerTable {
  columns: ReadonlySet<string>;
  /** Columns of its primary key behind the shop. */
  key: readonly string[];
}

/** The books' tables on the server. */
export async function serverTables(server: Server): Promise<Map<string, ServerTable>> {
  const found = await server.rows(`
    SELECT c.relname, a.attname, array_position(i.indkey::smallint[], a.attnum) FROM pg_class c
      JOIN pg_namespace n ON n.oid = c.relnamespace JOIN pg_attribute a ON a.attrelid = c.oid
      JOIN pg_index i ON i.indrelid = c.oid AND i.indisprimary
    WHERE n.nspname = 'ledger' AND c.relkind = 'r' AND a.attnum > 0 AND NOT a.attisdropped
    ORDER BY c.relname, 3 NULLS LAST`);
  const tables = new Map<string, { columns: Set<string>; key: string[] }>();
  for (const [relation, attribute, inKey] of found) {
    const [name, column] = [String(relation), String(attribute)];
    if (OF_LEDGER.includes(name)) continue;
    const table = tables.get(name) ?? { columns: new Set(), key: [] };
    tables.set(name, table);
    table.columns.add(column);
    if (inKey !== null && column !== SHOP) table.key.push(column);
  }
  return tables;
}

const OF_LEDGER: readonly string[] = ['version', 'shop', ...BASE_TABLES];

/**
 * The columns that the server has of a book's table; undefined where it does not know the table, or by another key. Its rows then go
 * to `ledger.other`.
 */
export function columnsOf(
  server: ReadonlyMap<string, ServerTable>,
  { name, key }: Pick<LedgerTable, 'name' | 'key'>,
): ReadonlySet<string> | undefined {
  const found = server.get(name);
  return found?.key.join() === key.join() ? found.columns : undefined;
}

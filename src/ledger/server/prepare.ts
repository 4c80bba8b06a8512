/**
 * Makes a database ready for the ledger, or brings it up to this program. Only the owner's connection does this: shops never
 * change a table.
 */
import { BOOK_VERSION } from '../../book/migrations/index.ts';
import {
  ledgerTablesOf,
  MORE,
  serverType,
  SHOP,
  type LedgerColumn,
  type LedgerTable,
} from '../tables/ledger-tables.ts';
import { dropViewsSql, VIEWS, VIEWS_FROM_BOOK, VIEWS_VERSION, viewsSql } from '../views/views.ts';
import { BASE, BASE_TABLES, LEAST_BASE, SHARED_TABLES } from './base.ts';
import { LedgerError } from './ledger-error.ts';
import { columnsOf, preparedVersions, serverTables, type ServerTable } from './prepared.ts';
import { quoted, type Server } from './server.ts';

/** Roles for the shops' and for the owner's own logins to be members of. */
export const SHOP_ROLE = 'ledger_shop';
export const READER_ROLE = 'ledger_reader';

/** Held while a database is prepared: two programs do it one after the other. The number is of our choice. */
const LOCK = 4_739_115;

export interface Prepared {
  /** False where the owner may make no roles: then each shop logs in as the owner, and sees all shops. */
  roles: boolean;
}

/**
 * Prepares a database. What a newer program prepared is left alone.
 * @param version of the book whose tables are made
 * @throws LedgerError `newer`, `no-rights`, `built-on`; nothing is changed then
 */
export async function prepare(server: Server, version: number = BOOK_VERSION): Promise<Prepared> {
  await server.script('BEGIN');
  try {
    await server.script(`SET LOCAL lock_timeout = '5s'; SELECT pg_advisory_xact_lock(${LOCK})`);
    const found = await preparedVersions(server);
    if (found.base > BASE.length || found.tables > version || found.views > VIEWS_VERSION)
      throw new LedgerError('newer');
    for (const step of BASE.slice(found.base)) await server.script(step);
    const roles = await ensureRoles(server);
    await makeTables(server, version, roles);
    const views = version < VIEWS_FROM_BOOK ? 0 : VIEWS_VERSION;
    if (views > 0) await makeViews(server, roles);
    await server.script(`
      INSERT INTO ledger.version (part, version, least)
        VALUES ('base', ${BASE.length}, ${LEAST_BASE}), ('tables', ${version}, 1), ('views', ${views}, 1)
      ON CONFLICT (part) DO UPDATE SET version = excluded.version, least = excluded.least, at = now()`);
    await server.script('COMMIT');
    return { roles };
  } catch (error) {
    await server.script('ROLLBACK');
    throw error;
  }
}

/** Whether a prepared database lacks tables or views of this program. */
export async function isOutdated(server: Server): Promise<boolean> {
  const { tables, views } = await preparedVersions(server);
  return tables < BOOK_VERSION || views < VIEWS_VERSION;
}

/** @returns whether both roles exist now */
async function ensureRoles(server: Server): Promise<boolean> {
  // A role may exist from another database of the server. Whoever may make none goes on without.
  for (const role of [SHOP_ROLE, READER_ROLE])
    await server.script(`
      DO $$ BEGIN CREATE ROLE ${role} NOLOGIN;
      EXCEPTION WHEN duplicate_object OR unique_violation OR insufficient_privilege THEN NULL; END $$`);
  const found = await server.rows('SELECT rolname FROM pg_roles WHERE rolname = $1 OR rolname = $2', [
    SHOP_ROLE,
    READER_ROLE,
  ]);
  return found.length === 2;
}

async function makeTables(server: Server, version: number, roles: boolean): Promise<void> {
  const tables = ledgerTablesOf(version);
  const there = await serverTables(server);
  // The rules of the rows would hide other shops' from whoever moves them.
  const parts: string[] = ['shop', ...there.keys(), ...BASE_TABLES].map(
    (name) => `ALTER TABLE ledger.${quoted(name)} NO FORCE ROW LEVEL SECURITY`,
  );
  for (const table of tables) {
    const found = there.get(table.name);
    const known = columnsOf(there, table);
    if (found && !known) parts.push(dropViewsSql(), ...toOther(table.name, found));
    if (!known) parts.push(newTable(table), ...fromOther(table, version));
    else
      for (const column of table.columns.filter(({ name }) => !known.has(name)))
        parts.push(...newColumn(table, column));
  }
  const all = [...new Set([...there.keys(), ...tables.map(({ name }) => name), ...BASE_TABLES])];
  parts.push(...all.flatMap((name) => guarded(name, 'shop IN (SELECT ledger.mine())', roles)));
  parts.push(...guarded('shop', 'role = current_user', roles));
  if (roles) parts.push(...grants(all));
  await server.script(parts.join(';\n'));
}

async function makeViews(server: Server, roles: boolean): Promise<void> {
  await server.script(viewsSql());
  const list = VIEWS.map(({ name }) => `ledger.${name}`).join(', ');
  if (roles) await server.script(`GRANT SELECT ON ${list} TO ${SHOP_ROLE}, ${READER_ROLE}`);
}

function newTable({ name, key, columns }: LedgerTable): string {
  const lines = columns.map((column) => `${quoted(column.name)} ${serverType(column.type)}`);
  return `CREATE TABLE ledger.${quoted(name)} (${SHOP} integer NOT NULL REFERENCES ledger.shop, ${lines.join(', ')},
    ${MORE} jsonb, PRIMARY KEY (${[SHOP, ...key.map(quoted)].join(', ')}))`;
}

/** Takes a table out whose key is another one now. Its rows wait until their books are of the version that has the new key. */
function toOther(name: string, { key }: ServerTable): string[] {
  // As `JSON.stringify` writes a key.
  const text = `'[' || concat_ws(',', ${key.map((column) => `to_json(${quoted(column)})::text`).join(', ')}) || ']'`;
  return [
    `INSERT INTO ledger.other (shop, tbl, key, body)
      SELECT ${SHOP}, '${name}', ${text}, (to_jsonb(t) - '${SHOP}' - '${MORE}') || coalesce(${MORE}, '{}') FROM ledger.${quoted(name)} t`,
    `DROP TABLE ledger.${quoted(name)}`,
  ];
}

/** Rows of books that are as new as this table. */
function fromOther({ name, columns }: LedgerTable, version: number): string[] {
  const values = columns.map(({ name: column, type }) => valueOf(`body ->> '${column}'`, type));
  const rows = `tbl = '${name}' AND shop IN (SELECT shop FROM ledger.shop WHERE book_version >= ${version})`;
  return [
    `INSERT INTO ledger.${quoted(name)} (${[SHOP, ...columns.map((one) => quoted(one.name))].join(', ')})
      SELECT ${[SHOP, ...values].join(', ')} FROM ledger.other WHERE ${rows}`,
    `DELETE FROM ledger.other WHERE ${rows}`,
  ];
}

function newColumn({ name }: LedgerTable, column: LedgerColumn): string[] {
  const table = `ledger.${quoted(name)}`;
  return [
    `ALTER TABLE ${table} ADD COLUMN ${quoted(column.name)} ${serverType(column.type)}`,
    `UPDATE ${table} SET ${quoted(column.name)} = ${valueOf(`${MORE} ->> '${column.name}'`, column.type)},
      ${MORE} = nullif(${MORE} - '${column.name}', '{}') WHERE ${MORE} ? '${column.name}'`,
  ];
}

/** SQL of a value that came as text of JSON. Bytes come as hexadecimal digits. */
export function valueOf(text: string, type: LedgerColumn['type']): string {
  return type === 'BLOB' ? `decode(${text}, 'hex')` : `(${text})::${serverType(type)}`;
}

/** Each role sees and writes the rows of its own shops, the table's owner as well; readers see all. */
function guarded(name: string, rule: string, roles: boolean): string[] {
  const table = `ledger.${quoted(name)}`;
  return [
    `ALTER TABLE ${table} ENABLE ROW LEVEL SECURITY`,
    `ALTER TABLE ${table} FORCE ROW LEVEL SECURITY`,
    `DROP POLICY IF EXISTS mine ON ${table}`,
    `CREATE POLICY mine ON ${table} USING (${rule}) WITH CHECK (${rule})`,
    `DROP POLICY IF EXISTS reading ON ${table}`,
    `DROP POLICY IF EXISTS sharing ON ${table}`,
    ...(SHARED_TABLES.includes(name) ? [`CREATE POLICY sharing ON ${table} FOR SELECT USING (true)`] : []),
    ...(roles ? [`CREATE POLICY reading ON ${table} FOR SELECT TO ${READER_ROLE} USING (true)`] : []),
  ];
}

function grants(tables: readonly string[]): string[] {
  const list = tables.map((name) => `ledger.${quoted(name)}`).join(', ');
  return [
    `GRANT USAGE ON SCHEMA ledger TO ${SHOP_ROLE}, ${READER_ROLE}`,
    `GRANT SELECT ON ledger.version, ledger.shop, ${list} TO ${SHOP_ROLE}, ${READER_ROLE}`,
    `GRANT INSERT, UPDATE, DELETE ON ${list} TO ${SHOP_ROLE}`,
    `GRANT INSERT (book, branch, name, book_version, personal) ON ledger.shop TO ${SHOP_ROLE}`,
    `GRANT UPDATE (name, seq, mark, whole, book_version, personal, superseded_by, sent_at) ON ledger.shop TO ${SHOP_ROLE}`,
  ];
}

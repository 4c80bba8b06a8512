/** A batch as statements of one transaction. */
import { MORE, serverType, SHOP, type LedgerTable } from '../tables/ledger-tables.ts';
import { valueOf } from '../server/prepare.ts';
import { columnsOf, type ServerTable } from '../server/prepared.ts';
import { quoted, type Statement } from '../server/server.ts';
import type { Batch, TableBatch } from './batch.ts';

/** The books' tables that the server has. */
export type ServerTables = ReadonlyMap<string, ServerTable>;

/** What a branch says of itself with each batch. */
export interface Sender {
  shop: number;
  name: string;
  bookVersion: number;
  personal: boolean;
}

/** An open transaction on a line that is gone is ended by the server, so that nobody waits for it. */
const BOUNDS = "SET LOCAL lock_timeout = '5s'; SET LOCAL idle_in_transaction_session_timeout = '20s'";

/**
 * Moves the cursor from where the batch begins, or fails with a division by zero (22012): then somebody else wrote, and nothing of
 * the batch is kept.
 */
const MOVE = `
  WITH moved AS (
    UPDATE ledger.shop SET seq = $4, mark = $5, whole = $6, name = $7, book_version = $8, personal = $9, sent_at = now()
    WHERE shop = $1 AND seq = $2 AND mark = $3 AND superseded_by IS NULL RETURNING 1)
  SELECT 1 / (SELECT count(*) FROM moved)`;
const TAKEN = 'INSERT INTO ledger.taken (shop, upto, since, mark) VALUES ($1, $2, $3, $4)';

/** SQLSTATE of a cursor that was elsewhere. */
export const ELSEWHERE = '22012';

export function statementsOf(batch: Batch, sender: Sender, server: ServerTables): Statement[] {
  const { from, to, whole } = batch;
  const { shop, name, bookVersion, personal } = sender;
  return [
    { sql: BOUNDS },
    { sql: MOVE, values: [shop, from.seq, from.mark, to.seq, to.mark, whole, name, bookVersion, personal] },
    { sql: TAKEN, values: [shop, to.seq, from.seq, to.mark] },
    ...batch.tables.flatMap((one) => tableStatements(one, shop, columnsOf(server, one.table))),
  ];
}

/** @param columns what the server has of the table; undefined: it does not know the table */
export function tableStatements(
  { table, rows, gone, unfit }: TableBatch,
  shop: number,
  columns: ReadonlySet<string> | undefined,
): Statement[] {
  const keys = [...rows.map(({ key }) => key), ...gone, ...unfit.map(({ key }) => key)];
  const statements: Statement[] = [
    // Whatever was in quarantine is judged anew.
    {
      sql: `DELETE FROM ledger.quarantine q USING jsonb_array_elements_text($2::jsonb) k WHERE q.shop = $1 AND q.tbl = $3 AND q.key = k.value`,
      values: [shop, JSON.stringify(keys), table.name],
    },
  ];
  const away = [...gone, ...unfit.map(({ key }) => key)].filter(isKeyOfServer);
  // A server that did not know the table, or knew it by another key, kept its rows there.
  statements.push(otherDeletion(table, shop, columns ? keys : away));
  if (columns && away.length > 0) statements.push(deletion(table, shop, away));
  if (rows.length > 0)
    statements.push(columns ? upsert(table, shop, columns, rows) : otherUpsert(table, shop, rows));
  for (const { key, why, body } of unfit)
    statements.push({
      sql: `INSERT INTO ledger.quarantine (shop, tbl, key, why, body) VALUES ($1, $2, $3, $4, $5)
        ON CONFLICT (shop, tbl, key) DO UPDATE SET why = excluded.why, body = excluded.body, at = now()`,
      values: [shop, table.name, key, why, body],
    });
  return statements;
}

/** A key that PostgreSQL has no place for was never there. */
function isKeyOfServer(key: string): boolean {
  const values = JSON.parse(key) as (string | number)[];
  return values.every(
    (value) => typeof value === 'number' || (value.isWellFormed() && !value.includes('\u0000')),
  );
}

type Row = TableBatch['rows'][number];
const arrayOf = (rows: readonly Row[]): string => `[${rows.map(({ json }) => json).join()}]`;

function upsert(
  table: LedgerTable,
  shop: number,
  known: ReadonlySet<string>,
  rows: readonly Row[],
): Statement {
  const indexed = table.columns.map((column, index) => ({ ...column, index }));
  const here = indexed.filter(({ name }) => known.has(name));
  const more = indexed
    .filter(({ name }) => !known.has(name))
    .map(({ name, index }) => `'${name}', v -> ${index}`);
  const names = [...here.map(({ name }) => quoted(name)), MORE];
  const values = [
    ...here.map(({ index, type }) => valueOf(`v ->> ${index}`, type)),
    more.length > 0 ? `jsonb_build_object(${more.join(', ')})` : 'NULL::jsonb',
  ];
  const set = names
    .filter((name) => !table.key.map(quoted).includes(name))
    .map((name) => `${name} = excluded.${name}`);
  return {
    sql: `INSERT INTO ledger.${quoted(table.name)} (${[SHOP, ...names].join(', ')})
      SELECT $1::integer, ${values.join(', ')} FROM jsonb_array_elements($2::jsonb) v
      ON CONFLICT (${[SHOP, ...table.key.map(quoted)].join(', ')}) DO UPDATE SET ${set.join(', ')}`,
    values: [shop, arrayOf(rows)],
  };
}

function deletion(table: LedgerTable, shop: number, keys: readonly string[]): Statement {
  const same = table.key.map((column, index) => {
    const type = table.columns.find(({ name }) => name === column)?.type ?? 'TEXT';
    return `t.${quoted(column)} = (k ->> ${index})::${serverType(type)}`;
  });
  return {
    sql: `DELETE FROM ledger.${quoted(table.name)} t USING jsonb_array_elements($2::jsonb) k WHERE t.shop = $1 AND ${same.join(' AND ')}`,
    values: [shop, `[${keys.join()}]`],
  };
}

function otherUpsert(table: LedgerTable, shop: number, rows: readonly Row[]): Statement {
  const body = table.columns.map(({ name }, index) => `'${name}', v -> 'row' -> ${index}`);
  return {
    sql: `INSERT INTO ledger.other (shop, tbl, key, body)
      SELECT $1::integer, $3::text, v ->> 'key', jsonb_build_object(${body.join(', ')}) FROM jsonb_array_elements($2::jsonb) v
      ON CONFLICT (shop, tbl, key) DO UPDATE SET body = excluded.body`,
    values: [
      shop,
      `[${rows.map(({ key, json }) => `{"key":${JSON.stringify(key)},"row":${json}}`).join()}]`,
      table.name,
    ],
  };
}

function otherDeletion(table: LedgerTable, shop: number, keys: readonly string[]): Statement {
  return {
    sql: 'DELETE FROM ledger.other o USING jsonb_array_elements_text($2::jsonb) k WHERE o.shop = $1 AND o.tbl = $3 AND o.key = k.value',
    values: [shop, JSON.stringify(keys), table.name],
  };
}

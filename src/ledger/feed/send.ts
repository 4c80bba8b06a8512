/** Sends one batch: all of its rows and the place that it reaches, or nothing. */
import { LedgerError } from '../server/ledger-error.ts';
import { columnsOf } from '../server/prepared.ts';
import type { Server } from '../server/server.ts';
import type { Batch, TableBatch } from './batch.ts';
import { ELSEWHERE, statementsOf, tableStatements, type Sender, type ServerTables } from './statements.ts';

/**
 * @throws LedgerError `fork` when the cursor was not where the batch begins: ask `branchAt` and `mayGoOn` again. The answer to
 *   a COMMIT may be lost with the line; the batch may then be there, and the cursor says so
 */
export async function sendBatch(
  server: Server,
  batch: Batch,
  sender: Sender,
  tables: ServerTables,
): Promise<void> {
  try {
    await server.transaction(statementsOf(batch, sender, tables));
  } catch (error) {
    if (stateOf(error) === ELSEWHERE) throw new LedgerError('fork', 'the cursor moved');
    if (!isOfData(error)) throw error;
    const fit = await withoutRefused(server, batch, sender, tables);
    await server.transaction(statementsOf(fit, sender, tables));
  }
}

const stateOf = (error: unknown): string =>
  error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';

/** Classes 22 and 23 of PostgreSQL's manual, appendix A: values, and constraints of tables. */
const isOfData = (error: unknown): boolean => /^2[23]/.test(stateOf(error));

/** The batch with every row that the server refuses in quarantine: one of them must never stop the others. */
async function withoutRefused(
  server: Server,
  batch: Batch,
  { shop }: Sender,
  tables: ServerTables,
): Promise<Batch> {
  const fit: TableBatch[] = [];
  for (const one of batch.tables) {
    const refused = new Set(await refusedOf(server, one, one.rows, shop, tables));
    fit.push({
      ...one,
      rows: one.rows.filter((row) => !refused.has(row)),
      unfit: [
        ...one.unfit,
        ...[...refused].map(({ key, exact }) => ({ key, why: 'refused' as const, body: exact() })),
      ],
    });
  }
  return { ...batch, tables: fit };
}

type Row = TableBatch['rows'][number];

/** Finds refused rows by halving. Nothing that is tried is kept. */
async function refusedOf(
  server: Server,
  { table }: TableBatch,
  rows: readonly Row[],
  shop: number,
  tables: ServerTables,
): Promise<Row[]> {
  if (rows.length === 0) return [];
  const some = { table, rows: [...rows], gone: [], unfit: [] };
  const known = columnsOf(tables, table);
  try {
    await server.transaction([...tableStatements(some, shop, known), TAKE_BACK]);
  } catch (error) {
    if (stateOf(error) === TAKEN_BACK) return [];
    if (!isOfData(error)) throw error;
    if (rows.length === 1) return [...rows];
  }
  const middle = Math.ceil(rows.length / 2);
  return [
    ...(await refusedOf(server, some, rows.slice(0, middle), shop, tables)),
    ...(await refusedOf(server, some, rows.slice(middle), shop, tables)),
  ];
}

/** Fails on purpose, after everything else went well. */
const TAKEN_BACK = 'LG001';
const TAKE_BACK = {
  sql: `DO $$ BEGIN RAISE EXCEPTION 'tried' USING ERRCODE = '${TAKEN_BACK}'; END $$`,
};

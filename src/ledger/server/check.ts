/** Whether a server can be a ledger for whoever is connected to it. */
import { BASE } from './base.ts';
import { OLDEST_SERVER } from './connect.ts';
import { LedgerError } from './ledger-error.ts';
import { preparedVersions } from './prepared.ts';
import { one, type Server } from './server.ts';

/**
 * Checks a server for a shop that is about to write.
 * @throws LedgerError `not-postgres`, `too-old`, `bypasses`, `not-prepared`, `newer`, `no-rights`
 */
export async function checkServer(server: Server): Promise<void> {
  await checkVersion(server);
  // The rules of the tables do not hold for such a role: one shop could write another's rows.
  if (await one(server, 'SELECT rolsuper OR rolbypassrls FROM pg_roles WHERE rolname = current_user'))
    throw new LedgerError('bypasses');
  await checkPrepared(server);
  const may = await one(
    server,
    "SELECT has_table_privilege('ledger.taken', 'INSERT') AND has_column_privilege('ledger.shop', 'seq', 'UPDATE')",
  );
  if (may !== true) throw new LedgerError('no-rights');
}

/** Checks a server for somebody who only reads. @throws LedgerError `not-postgres`, `too-old`, `not-prepared`, `newer` */
export async function checkReadable(server: Server): Promise<void> {
  await checkVersion(server);
  await checkPrepared(server);
}

async function checkPrepared(server: Server): Promise<void> {
  const { base, least } = await preparedVersions(server);
  if (base === 0) throw new LedgerError('not-prepared');
  if (least > BASE.length) throw new LedgerError('newer');
}

/** @throws LedgerError `not-postgres`, `too-old` */
export async function checkVersion(server: Server): Promise<void> {
  const [row] = await server.rows("SELECT version(), current_setting('server_version_num')");
  const version = Number(row?.[1]);
  if (!/^PostgreSQL /.test(String(row?.[0])) || !Number.isInteger(version))
    throw new LedgerError('not-postgres', String(row?.[0]));
  if (version < OLDEST_SERVER) throw new LedgerError('too-old', String(row?.[0]));
  // A catalog that came with 15: a server that only says that it is new has none.
  const has = await one(server, "SELECT to_regclass('pg_catalog.pg_parameter_acl') IS NOT NULL");
  if (has !== true) throw new LedgerError('not-postgres', 'it has no catalog of PostgreSQL 15');
}

/** A connection to PostgreSQL by `pg`, which is loaded with the first one: a shop without a ledger never loads it. */
import { isIP } from 'node:net';
import { LedgerError, ledgerErrorOf } from './ledger-error.ts';
import type { Rows, Server, SqlValue, Statement } from './server.ts';

/** Where a ledger is. The password is no part of it: this goes into the book. */
export interface LedgerAddress {
  host: string;
  port: number;
  database: string;
  user: string;
  /** `verified`: encrypted, to a server that proves its name. `none`: only for a server on this computer. */
  tls: 'verified' | 'none';
  /** The certificate of the owner's own authority, as PEM; null: those that this computer knows. */
  ca: string | null;
}

/** A server that says nothing is given up after this long, ms. */
const CONNECT_WITHIN = 10_000;
/** A statement is given up after this long, ms: the largest batch takes less than a second on a slow server. */
const ANSWER_WITHIN = 120_000;
/** The oldest PostgreSQL whose views can be told to keep to the rules of their tables. */
export const OLDEST_SERVER = 150_000;

/** OIDs of PostgreSQL's `pg_type`: the types that are no text here. */
const NUMBERS: readonly number[] = [20, 21, 23, 26, 700, 701];
const BOOLEAN = 16;

/**
 * @param answerWithin a silent server is given up after this long, ms
 * @throws LedgerError, or the error of the line
 */
export async function connect(
  address: LedgerAddress,
  password: string,
  answerWithin = ANSWER_WITHIN,
): Promise<Server> {
  const { default: pg } = await import('pg');
  const { host, port, database, user, tls, ca } = address;
  const client = new pg.Client({
    host,
    port,
    database,
    user,
    // As a function: an empty one would be looked for in the environment and in files of the user.
    password: () => password,
    ssl:
      tls === 'verified'
        ? {
            rejectUnauthorized: true,
            minVersion: 'TLSv1.2',
            // The name that the certificate must have; an address has none to announce.
            ...(isIP(host) ? {} : { servername: host }),
            ...(ca === null ? {} : { ca }),
          }
        : false,
    application_name: 'gambrel',
    keepAlive: true,
    connectionTimeoutMillis: CONNECT_WITHIN,
    query_timeout: answerWithin,
    pipeline: true,
    types: { getTypeParser: parserOf as never },
  });
  // Without a listener an emitter throws its `error`; whoever waits for an answer is told by it.
  client.on('error', () => undefined);
  const of = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      throw ledgerErrorOf(error);
    }
  };
  const query = async (sql: string, values?: readonly SqlValue[]) =>
    client.query<unknown[]>({
      text: sql,
      rowMode: 'array',
      ...(values ? { values: [...values] } : {}),
    });
  await of(() => client.connect());
  return {
    rows: (sql, values) => of(async () => (await query(sql, values)).rows as Rows),
    script: (sql) => of(async () => void (await query(sql))),
    transaction: (statements) => of(() => together(query, statements)),
    end: () => client.end(),
  };
}

type Query = (sql: string, values?: readonly SqlValue[]) => Promise<{ command: string }>;

async function together(query: Query, statements: readonly Statement[]): Promise<void> {
  const sent = [{ sql: 'BEGIN' }, ...statements, { sql: 'COMMIT' }].map(({ sql, values }: Statement) =>
    query(sql, values),
  );
  const answers = await Promise.allSettled(sent);
  const failed = answers.find((answer) => answer.status === 'rejected');
  if (failed) throw failed.reason;
  const last = answers.at(-1);
  // A server answers the COMMIT of a failed transaction with success, and rolls it back.
  if (last?.status !== 'fulfilled' || last.value.command !== 'COMMIT')
    throw new LedgerError('not-postgres', 'a transaction was not committed');
}

function parserOf(oid: number): (text: string) => unknown {
  if (NUMBERS.includes(oid)) return Number;
  return oid === BOOLEAN ? (text) => text === 't' : (text) => text;
}

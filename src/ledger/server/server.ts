/** What the ledger needs of a connection to PostgreSQL, whichever program carries it. */

export type SqlValue = string | number | boolean | null;

export interface Statement {
  sql: string;
  values?: readonly SqlValue[];
}

/** Rows as arrays of values; integers and decimals come as numbers, everything else but booleans as text. */
export type Rows = unknown[][];

export interface Server {
  rows(sql: string, values?: readonly SqlValue[]): Promise<Rows>;
  /** Runs several statements without values. */
  script(sql: string): Promise<void>;
  /**
   * Runs statements in one transaction: all of them or none. They are sent together, so that the line is waited for once.
   * @throws LedgerError, or the error of the first statement that failed
   */
  transaction(statements: readonly Statement[]): Promise<void>;
  end(): Promise<void>;
}

/** The only value of the only row, or undefined for no row. */
export async function one(server: Server, sql: string, values?: readonly SqlValue[]): Promise<unknown> {
  return (await server.rows(sql, values))[0]?.[0];
}

/** @example quoted('by') // '"by"' */
export const quoted = (name: string): string => `"${name.replaceAll('"', '""')}"`;

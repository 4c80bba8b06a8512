/** PostgreSQL as WebAssembly, in this process: one session, which plays each role in turn. */
import { PGlite } from '@electric-sql/pglite';
import type { Rows, Server, SqlValue } from '../../../src/ledger/server/server.ts';

export interface LiteServer {
  /** A connection of this role; each of its calls runs by itself. */
  as(role: string): Server;
  end(): Promise<void>;
}

export async function startLite(): Promise<LiteServer> {
  const lite = await PGlite.create();
  let before: Promise<unknown> = Promise.resolve();
  const alone = <T>(work: () => Promise<T>): Promise<T> => {
    const turn = before.then(work, work);
    before = turn.catch(() => undefined);
    return turn;
  };
  return {
    as(role) {
      const begin = (): Promise<unknown> => lite.exec(`SET ROLE ${role}`);
      const rows = async (sql: string, values: readonly SqlValue[] = []): Promise<Rows> =>
        (await lite.query<unknown[]>(sql, [...values], { rowMode: 'array' })).rows;
      return {
        rows: (sql, values) => alone(async () => (await begin(), rows(sql, values))),
        script: (sql) => alone(async () => void (await begin(), await lite.exec(sql))),
        transaction: (statements) =>
          alone(async () => {
            await begin();
            await lite.exec('BEGIN');
            try {
              for (const { sql, values } of statements) await (values ? rows(sql, values) : lite.exec(sql));
              await lite.exec('COMMIT');
            } catch (error) {
              await lite.exec('ROLLBACK');
              throw error;
            }
          }),
        end: () => Promise.resolve(),
      };
    },
    end: () => alone(() => lite.close()),
  };
}

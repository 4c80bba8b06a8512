/** A report's questions on one state of the ledger, which changes nothing and is given up after a while. */
import { BASE } from '../server/base.ts';
import { checkVersion } from '../server/check.ts';
import { LedgerError } from '../server/ledger-error.ts';
import { preparedVersions } from '../server/prepared.ts';
import type { Server } from '../server/server.ts';
import { VIEWS_VERSION } from '../views/views.ts';
import { readsAllShops } from './ledger-shops.ts';

/** Each question of a report, ms: millions of weighings take a few seconds. */
const QUESTION_WITHIN = 30_000;
/** A line that is silent for longer than any question takes is given up, ms. */
export const ANSWER_WITHIN = QUESTION_WITHIN + 5_000;

/**
 * Asks the views of every shop.
 * @throws LedgerError `not-postgres`, `too-old`, `not-prepared`, `outdated`, `newer`, `one-shop`, `slow`, or what the line met
 */
export async function readAllShops<T>(server: Server, questions: () => Promise<T>): Promise<T> {
  await checkVersion(server);
  // Before the ledger is touched: a login with no rights at all would see none.
  if (!(await readsAllShops(server))) throw new LedgerError('one-shop');
  const { base, least, views } = await preparedVersions(server);
  if (base === 0) throw new LedgerError('not-prepared');
  if (least > BASE.length) throw new LedgerError('newer');
  if (views < VIEWS_VERSION) throw new LedgerError('outdated');
  await server.script(
    `BEGIN ISOLATION LEVEL REPEATABLE READ, READ ONLY; SET LOCAL statement_timeout = ${QUESTION_WITHIN}`,
  );
  try {
    return await questions();
  } catch (error) {
    throw error instanceof LedgerError && error.detail === CANCELED ? new LedgerError('slow') : error;
  } finally {
    await server.script('ROLLBACK').catch(() => undefined); // nothing was written, and the line may be gone
  }
}

/** SQLSTATE of a statement that the server gave up (PostgreSQL's manual, appendix A). */
const CANCELED = '57014';

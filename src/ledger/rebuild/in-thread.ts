/** The thread's side of `thread.ts`. */
import { checkCopy } from '../../book/file/backup-check.ts';
import { BookError } from '../../book/file/book-error.ts';
import { checkReadable } from '../server/check.ts';
import { connect } from '../server/connect.ts';
import { LedgerError, ledgerErrorOf } from '../server/ledger-error.ts';
import { bookFromLedger } from './book-from-ledger.ts';
import { branchNote } from './books.ts';
import type { FromRebuild, RebuildData } from './thread.ts';

/** Makes the book, checks it as a backup is checked, and says so; or says why not. */
export async function rebuildInThread(
  data: RebuildData,
  post: (message: FromRebuild) => void,
): Promise<void> {
  try {
    const server = await connect(data.address, data.password);
    try {
      await checkReadable(server);
      await bookFromLedger(server, data.shop, data.path, new Date(data.now), (progress) =>
        post({ kind: 'progress', progress }),
      );
      const branch = await branchNote(server, data.shop);
      post({ kind: 'made', rebuilt: { contents: checkCopy(data.path, null), branch } });
    } finally {
      await server.end().catch(() => undefined); // the line may be gone already
    }
  } catch (error) {
    post(messageOf(ledgerErrorOf(error)));
  }
}

function messageOf(error: unknown): FromRebuild {
  if (error instanceof LedgerError) return { kind: 'ledger', code: error.code, detail: error.detail };
  if (error instanceof BookError)
    return { kind: 'book', code: error.code, path: error.path, detail: error.detail };
  return {
    kind: 'broken',
    error: error instanceof Error ? (error.stack ?? error.message) : String(error),
  };
}

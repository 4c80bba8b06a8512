/** A book made from a ledger in a thread of its own: rows by the million would hold the desk. */
import { SHARE_ENV, Worker } from 'node:worker_threads';
import type { BackupContents } from '../../book/file/backup-check.ts';
import { BookError, type BookErrorCode } from '../../book/file/book-error.ts';
import type { LedgerAddress } from '../server/connect.ts';
import { LedgerError, type LedgerCode } from '../server/ledger-error.ts';
import type { RebuildProgress } from './book-from-ledger.ts';
import type { BranchNote } from './books.ts';

export interface RebuildData {
  address: LedgerAddress;
  password: string;
  /** The branch, by its number in the ledger. */
  shop: number;
  /** An empty file, for the book. */
  path: string;
  /** UTC moment; the thread has no clock of its own. */
  now: string;
}

/** A book that was made and checked. */
export interface Rebuilt {
  contents: BackupContents;
  branch: BranchNote;
}

export type FromRebuild =
  | { kind: 'progress'; progress: RebuildProgress }
  | { kind: 'made'; rebuilt: Rebuilt }
  | { kind: 'ledger'; code: LedgerCode; detail: string }
  | { kind: 'book'; code: BookErrorCode; path: string; detail: string }
  | { kind: 'broken'; error: string };

export interface RebuildThread {
  /** Rejects with LedgerError, BookError or any other error; never settles once it was stopped. */
  made: Promise<Rebuilt>;
  /** Ends it at once. What is at the path is then for the caller to remove; on Windows only when this resolves. */
  stop(): Promise<void>;
}

/** @param program the thread's script: `worker.ts` of the ledger, or its build */
export function startRebuild(
  program: URL,
  data: RebuildData,
  onProgress: (progress: RebuildProgress) => void,
): RebuildThread {
  const thread = new Worker(program, {
    workerData: { job: 'rebuild', ...data } satisfies RebuildData & { job: 'rebuild' },
    execArgv: [],
    env: SHARE_ENV,
  });
  thread.unref(); // nothing half made keeps the program from ending
  let stopped = false;
  const made = new Promise<Rebuilt>((resolve, reject) => {
    const fail = (error: unknown): void => {
      if (!stopped) reject(error);
    };
    thread.on('message', (message: FromRebuild) => {
      if (stopped) return;
      if (message.kind === 'progress') onProgress(message.progress);
      else if (message.kind === 'made') resolve(message.rebuilt);
      else fail(errorOf(message));
    });
    thread.on('error', fail);
    thread.on('exit', () => fail(new Error('the thread of a rebuild ended')));
  });
  return {
    made,
    async stop() {
      stopped = true;
      await thread.terminate();
    },
  };
}

function errorOf(message: Exclude<FromRebuild, { kind: 'progress' | 'made' }>): Error {
  switch (message.kind) {
    case 'ledger':
      return new LedgerError(message.code, message.detail);
    case 'book':
      return new BookError(message.code, message.path, message.detail);
    case 'broken':
      return new Error(message.error);
  }
}

/** What this program writes is for the account that runs it: other accounts of the computer read none of it. */
import { dirname } from 'node:path';
import { isMainThread } from 'node:worker_threads';
import { restrictToOwner } from '../src/book/file/private-files.ts';

/** Group and others get nothing. */
const PRIVATE = 0o077;

/** The mask that the person's own programs expect. */
let usual: number | null = null;

/** Call it first in each process: from then on every file that it makes is private. A thread has the mask of its process. */
export function writePrivately(): void {
  if (isMainThread) usual ??= process.umask(PRIVATE);
}

/** Starts another program, which inherits the mask, with that of the person: what a browser saves is no matter of ours. */
export function withUsualMask<T>(start: () => T): T {
  const own = process.umask(usual ?? process.umask());
  try {
    return start();
  } finally {
    process.umask(own);
  }
}

/** The folder of the usual book is ours; earlier versions made it readable. */
export function makeFolderPrivate(usualBook: string): void {
  restrictToOwner(dirname(usualBook));
}

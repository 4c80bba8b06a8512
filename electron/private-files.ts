/** Restricts the files that this program writes to the account that runs it. */
import { dirname } from 'node:path';
import { isMainThread } from 'node:worker_threads';
import { restrictToOwner } from '../src/book/file/private-files.ts';

/** No permissions for group and others. */
const PRIVATE = 0o077;

/** The original mask, which the user's other programs expect. */
let usual: number | null = null;

/**
 * Call it first in each process: from then on every created file is private. A thread shares the mask of its
 * process.
 */
export function writePrivately(): void {
  if (isMainThread) usual ??= process.umask(PRIVATE);
}

/**
 * Starts another program with the original mask, which it inherits: this program does not restrict a browser's
 * files.
 */
export function withUsualMask<T>(start: () => T): T {
  const own = process.umask(usual ?? process.umask());
  try {
    return start();
  } finally {
    process.umask(own);
  }
}

/** The folder of the default book is this program's; earlier versions made it readable. */
export function makeFolderPrivate(usualBook: string): void {
  restrictToOwner(dirname(usualBook));
}

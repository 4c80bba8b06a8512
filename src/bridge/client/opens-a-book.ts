import type { CallName } from '../contract.ts';

/** Calls after which another opening of a book may be shown. Whoever made one waits for its answer all the same. */
const OPENS_A_BOOK: ReadonlySet<CallName> = new Set<CallName>([
  'shop.openDemo',
  'shop.leaveDemo',
  'shop.restore',
  'shop.tryAgain',
  'shop.beginAnew',
]);

export const opensABook = (name: CallName): boolean => OPENS_A_BOOK.has(name);

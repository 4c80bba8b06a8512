import type { CallName } from '../contract.ts';

/** Calls after which another opening of a book may be current. Their caller gets the answer anyway. */
const OPENS_A_BOOK: ReadonlySet<CallName> = new Set<CallName>([
  'shop.openDemo',
  'shop.leaveDemo',
  'shop.restore',
  'shop.tryAgain',
  'shop.beginAnew',
  'ledger.openRebuilt',
]);

export const opensABook = (name: CallName): boolean => OPENS_A_BOOK.has(name);

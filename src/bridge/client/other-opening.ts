import type { Answer } from '../../desk/contract/problem.ts';

/** What the desk answers a call that is meant for another opening of a book. */
export const OTHER_OPENING: Answer<never> & { ok: false } = {
  ok: false,
  problem: { kind: 'conflict', code: 'book.other-opening' },
};

import type { Answer } from '../../desk/contract/problem.ts';

/** The desk's answer to a call meant for another opening of a book. */
export const OTHER_OPENING: Answer<never> & { ok: false } = {
  ok: false,
  problem: { kind: 'conflict', code: 'book.other-opening' },
};

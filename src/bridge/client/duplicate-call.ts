import type { Answer } from '../../desk/contract/problem.ts';

/** The answer to an identical call while the first is pending: the first will be answered. */
export const DUPLICATE_CALL: Answer<never> = {
  ok: false,
  problem: { kind: 'conflict', code: 'desk.already' },
};

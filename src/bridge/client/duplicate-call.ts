import type { Answer } from '../../desk/contract/problem.ts';

/** What a second press of the same gets while the first is on its way: that one will be answered. */
export const DUPLICATE_CALL: Answer<never> = {
  ok: false,
  problem: { kind: 'conflict', code: 'desk.already' },
};

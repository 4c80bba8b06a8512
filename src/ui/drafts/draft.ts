import type { CallOutput } from '../../bridge/contract.ts';

/** What a hunter typed at the check-in. */
export type Draft = CallOutput<'drafts.list'>[number];

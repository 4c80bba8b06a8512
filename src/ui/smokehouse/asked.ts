import type { Answer } from '../../bridge/contract.ts';

/** An action that needs a reason. */
export interface Asked {
  title: string;
  /** What it does. */
  hint: string;
  confirm: string;
  run: (reason: string) => Promise<Answer<unknown>>;
}

/** Which procedures the model drives, and why the others are not driven. */
import type { CallName } from '../../src/bridge/contract.ts';
import { STEPS } from './steps/index.ts';

/** Called before each history begins. */
export const AT_THE_BEGINNING: readonly CallName[] = ['shop.setUp'];

export const DRIVEN: ReadonlySet<CallName> = new Set([
  ...AT_THE_BEGINNING,
  ...[...STEPS.values()].flatMap(({ calls }) => calls),
]);

/** None so far: a procedure that no history can reach is named here with the reason. */
export const NOT_DRIVEN: Partial<Record<CallName, string>> = {};

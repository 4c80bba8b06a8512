/** Which procedures the model drives, and why the others are not driven. */
import type { CallName } from '../../src/bridge/contract.ts';
import { STEPS } from './steps/index.ts';

/** Called before each history begins. */
const AT_THE_BEGINNING: readonly CallName[] = ['shop.setUp'];

export const DRIVEN: ReadonlySet<CallName> = new Set([
  ...AT_THE_BEGINNING,
  ...[...STEPS.values()].flatMap(({ calls }) => calls),
]);

/** Procedures that no history can reach. */
export const NOT_DRIVEN: Partial<Record<CallName, string>> = {
  'shop.keepRecords': 'works only on a book that does not open, and histories harm no file: test/torture and test/book do',
};

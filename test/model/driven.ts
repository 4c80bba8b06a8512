/** Which procedures the model drives, and why the others are not driven. */
import type { CallName } from '../../src/bridge/contract.ts';
import { STEPS } from './steps/index.ts';

/** Called before each history begins. */
export const AT_THE_BEGINNING: readonly CallName[] = ['shop.setUp'];

export const DRIVEN: ReadonlySet<CallName> = new Set([
  ...AT_THE_BEGINNING,
  ...[...STEPS.values()].flatMap(({ calls }) => calls),
]);

/** A procedure that no history reaches, with the reason. */
export const NOT_DRIVEN: Partial<Record<CallName, string>> = {
  'animals.giveBack':
    'leaves price lines out of bills, which the model does not work out: test/desk/animals/donations.test.ts',
  'animals.process': 'only after animals.giveBack: test/desk/animals/donations.test.ts',
  'animals.noteAffected': 'a note that no rule depends on: test/desk/animals/affected.test.ts',
  'animals.voidAffected': 'as animals.noteAffected',
};

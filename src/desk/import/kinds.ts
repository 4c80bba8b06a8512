import type { Session } from '../session/session.ts';
import type { BringKind } from '../contract/contract.ts';
import { animalTaker } from './animals.ts';
import { hunterTaker } from './hunters.ts';
import type { Taker } from './taker.ts';
import { weighingTaker } from './weighings.ts';

const takers: Readonly<Record<BringKind, (session: Session) => Taker>> = {
  hunters: hunterTaker,
  animals: animalTaker,
  weighings: weighingTaker,
};

/** What is done with the rows of a table. A taker remembers whom it met, so each run over a table has its own. */
export function takerOf(kind: BringKind, session: Session): Taker {
  return takers[kind](session);
}

/** What a hunter wants made of an animal, and what is cut for one who said nothing. */
import type { Session } from '../session/session.ts';
import type { Instructions } from '../contract/contract.ts';

/** What is cut for a hunter who said nothing. */
export const USUAL_INSTRUCTIONS: Instructions = {
  cutsShare: 0.4,
  primals: [],
  fat: 'none',
  targetFat: null,
  grindProduct: 'Ground',
  pattyGrams: null,
  alsoGround: [],
  packageGrams: 453.59237,
  extras: [],
  note: '',
};

export function instructionsOf(session: Session, animalId: number): Instructions {
  return { ...USUAL_INSTRUCTIONS, ...(session.book.animals.instruction(animalId) as Instructions | null) };
}

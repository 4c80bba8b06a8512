/** What a hunter wants made of an animal, and what is cut for one who said nothing. */
import type { DeskRoom } from '../session/room.ts';
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

export function instructionsOf(room: DeskRoom, animalId: number): Instructions {
  return { ...USUAL_INSTRUCTIONS, ...(room.book.animals.instruction(animalId) as Instructions | null) };
}

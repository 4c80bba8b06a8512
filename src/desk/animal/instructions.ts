/** The hunter's cutting instructions, and the defaults where there are none. */
import type { Session } from '../session/session.ts';
import { GROUND_PRODUCT } from '../../trade/product.ts';
import type { Instructions, OrdersStatus } from '../contract/contract.ts';

/** Defaults where the hunter gave no instructions. */
export const USUAL_INSTRUCTIONS: Instructions = {
  cutsShare: 0.4,
  primals: [],
  fat: 'none',
  targetFat: null,
  grindProduct: GROUND_PRODUCT,
  pattyGrams: null,
  alsoGround: [],
  packageGrams: 453.59237,
  pricedExtras: {},
  extras: [],
  note: '',
};

/** Stored for an animal whose hunter was not asked but whose bill has extras. */
interface ExtrasAlone extends Pick<Instructions, 'pricedExtras'> {
  notAsked: true;
}
type Stored = Partial<Instructions> & { notAsked?: true };

/** The instructions to store when only the extras change. */
export function withExtras(
  session: Session,
  animalId: number,
  pricedExtras: Instructions['pricedExtras'],
): Instructions | ExtrasAlone {
  return ordersStatus(session, animalId) === 'not asked'
    ? { notAsked: true, pricedExtras }
    : { ...instructionsOf(session, animalId), pricedExtras };
}

/** Whether the hunter was asked. The shop's defaults are not an order until the hunter chose them. */
export function ordersStatus(session: Session, animalId: number): OrdersStatus {
  const stored = session.book.animals.instruction(animalId) as Stored | null;
  if (stored === null || stored.notAsked) return 'not asked';
  return stored.standard === true ? 'standard' : 'ordered';
}

export function instructionsOf(session: Session, animalId: number): Instructions {
  const stored = session.book.animals.instruction(animalId) as Stored | null;
  if (stored?.notAsked) return { ...USUAL_INSTRUCTIONS, pricedExtras: stored.pricedExtras ?? {} };
  return { ...USUAL_INSTRUCTIONS, ...(stored && ordersRead(session, stored)) };
}

/**
 * Reads stored orders. Before extras had a quantity, a word that was the code of an extra was charged once; every
 * other word is a note.
 */
export function ordersRead<O extends Partial<Pick<Instructions, 'extras' | 'pricedExtras'>>>(
  session: Session,
  stored: O,
): O & { pricedExtras: Record<string, number> } {
  const { pricedExtras, extras = [] } = stored;
  if (pricedExtras) return { ...stored, pricedExtras };
  const codes = extras.length > 0 ? session.book.prices.extraCodes() : [];
  const charged = extras.filter((word) => codes.includes(word));
  return {
    ...stored,
    extras: extras.filter((word) => !codes.includes(word)),
    pricedExtras: Object.fromEntries(charged.map((code) => [code, 1])),
  };
}

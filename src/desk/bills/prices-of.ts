/** The prices that an animal is billed by. */
import type { Basis } from '../../core/pricing/price.ts';
import { pricesInForce } from '../pricing/prices.ts';
import type { Session } from '../session/session.ts';

/** Lines that charge for work which is not done to meat that goes back as it came. */
const OF_PROCESSING: readonly Basis[] = ['animal', 'hanging', 'minimum'];

/**
 * The prices in force; of an animal that goes back as it came only those for what was done: hours, extras, what was ground or
 * packed all the same, and percentages of that.
 */
export function pricesOf(session: Session, animalId: number): ReturnType<typeof pricesInForce> {
  const prices = pricesInForce(session);
  if (!prices || !session.book.leaving.unprocessed(animalId)) return prices;
  return { ...prices, lines: prices.lines.filter(({ basis }) => !OF_PROCESSING.includes(basis)) };
}

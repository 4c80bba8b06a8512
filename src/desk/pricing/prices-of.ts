/** The price lines that an animal is charged by. */
import type { Basis, PriceLine } from '../../core/pricing/price.ts';
import { pricesInForce } from './prices.ts';
import type { Session } from '../session/session.ts';

/** Lines that charge for work which is not done to meat that goes back as it came. */
const OF_PROCESSING: readonly Basis[] = ['animal', 'hanging', 'minimum'];

/**
 * The prices in force; of an animal that goes back as it came only those for what was done: hours, extras, what was ground or
 * packed all the same, and percentages of that.
 */
export function pricesOf(session: Session, animalId: number): ReturnType<typeof pricesInForce> {
  const prices = pricesInForce(session);
  return prices && { ...prices, lines: linesOf(session, animalId, prices.lines) };
}

/** Those of some price lines that charge an animal: all, or what is left for one that goes back as it came. */
export function linesOf(session: Session, animalId: number, lines: readonly PriceLine[]): PriceLine[] {
  if (!session.book.leaving.unprocessed(animalId)) return [...lines];
  return lines.filter(({ basis }) => !OF_PROCESSING.includes(basis));
}

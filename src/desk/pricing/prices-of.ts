/** The price lines that apply to an animal. */
import type { Basis, PriceLine } from '../../core/pricing/price.ts';
import { pricesInForce } from './prices.ts';
import type { Session } from '../session/session.ts';

/** Lines for processing, which do not apply to meat that goes back unprocessed. */
const OF_PROCESSING: readonly Basis[] = ['animal', 'hanging', 'minimum'];

/**
 * The prices in force. For an animal that goes back unprocessed only the lines for what was done: hours, extras,
 * anything ground or packed, and percentages of that.
 */
export function pricesOf(session: Session, animalId: number): ReturnType<typeof pricesInForce> {
  const prices = pricesInForce(session);
  return prices && { ...prices, lines: linesOf(session, animalId, prices.lines) };
}

/** The lines that apply to an animal: all, or those for what was done to an unprocessed one. */
export function linesOf(session: Session, animalId: number, lines: readonly PriceLine[]): PriceLine[] {
  if (!session.book.leaving.unprocessed(animalId)) return [...lines];
  return lines.filter(({ basis }) => !OF_PROCESSING.includes(basis));
}

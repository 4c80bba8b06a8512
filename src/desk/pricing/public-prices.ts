/** The shop's price list as it hangs in the shop: what hunters may read without asking. */
import type { Basis } from '../../core/pricing/lines.ts';
import type { DraftPrice, DraftSheet } from '../contract/contract.ts';
import { pricesInForce } from './prices.ts';
import type { Session } from '../session/session.ts';

/** What is only of one bill or quote stands on no list. */
const LISTED: ReadonlySet<Basis> = new Set([
  'animal', 'hanging', 'ground', 'product', 'trim', 'fat', 'package', 'hour', 'extra', 'percent', 'minimum', 'deposit',
]); // prettier-ignore

/**
 * The prices in force; null while the shop has only the example's, which are nobody's.
 * @param said a label in the reader's language
 */
export function publicPrices(session: Session, said: (label: string) => string): DraftSheet['prices'] {
  const prices = pricesInForce(session);
  if (!prices || prices.example) return null;
  const lines = prices.lines.filter(({ basis }) => LISTED.has(basis));
  return {
    currency: prices.currency,
    lines: lines.map((line): DraftPrice => ({
      code: line.code,
      title: said(line.label),
      basis: line.basis,
      amountMinor: line.amountMinor ?? null,
      rate: line.rate ?? null,
      unit: line.unit ?? null,
      species: line.species ? [...line.species] : null,
      brought: line.brought ? [...line.brought] : null,
      fat: line.fatSource ?? null,
      least: line.least ?? null,
    })),
  };
}

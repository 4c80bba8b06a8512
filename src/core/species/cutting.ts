/** What the cutting instructions mean for the meat, before anything is weighed. */
import { ValidationError } from '../values/validation-error.ts';

/** A primal with its share of the meat of a whole animal, as a fraction. */
export interface PrimalShare {
  code: string;
  share: number;
}

/**
 * The share of an animal's meat that stays whole (steaks, roasts, stew …): the shares of all primals that are not
 * ground, over the shares of all that are present. A primal without an order is ground.
 *
 * @param primals the primals present, shares as fractions; they need not sum to one, half an animal is whole to
 *   itself
 * @param orders the order of each; `as: 'grind'` is ground, everything else kept whole
 * @returns a fraction from 0 to 1
 * @throws ValidationError `share.range` (a share is no fraction, or nothing is present), `primal.unknown`,
 *   `primal.twice`
 * @example wholeCutsShare([{ code: 'ham', share: 0.3 }, { code: 'neck', share: 0.1 }], [{ primal: 'ham', as: 'roasts' }])
 * // 0.75
 */
export function wholeCutsShare(
  primals: readonly PrimalShare[],
  orders: readonly { primal: string; as: string }[],
): number {
  const uses = new Map(orders.map(({ primal, as }) => [primal, as]));
  if (uses.size !== orders.length) throw new ValidationError('primal.twice', 'orders');
  for (const [index, { primal }] of orders.entries())
    if (!primals.some(({ code }) => code === primal))
      throw new ValidationError('primal.unknown', `orders[${index}].primal`, { primal });
  let wholeCuts = 0;
  let all = 0;
  for (const [index, { code, share }] of primals.entries()) {
    if (!(share >= 0 && share <= 1))
      throw new ValidationError('share.range', `primals[${index}].share`, { share: String(share) });
    all += share;
    if ((uses.get(code) ?? 'grind') !== 'grind') wholeCuts += share;
  }
  if (!(all > 0)) throw new ValidationError('share.range', 'primals', { share: all });
  return wholeCuts / all;
}

/**
 * The primals that were received, each with its received share: one hind leg of two is half its share. Without a
 * count of pieces the whole animal was received.
 *
 * @param primals those of a whole animal; of a `pair` there are two pieces, of the others one
 * @param parts pieces that came in; more than the animal has count as all, unknown codes as nothing
 * @example receivedPrimals([{ code: 'ham', share: 0.3, pair: true }], [{ primal: 'ham', count: 1 }])
 * // [{ code: 'ham', share: 0.15, pair: true }]
 */
export function receivedPrimals<P extends PrimalShare & { pair: boolean }>(
  primals: readonly P[],
  parts: readonly { primal: string; count: number }[],
): P[] {
  if (parts.length === 0) return [...primals];
  return primals.flatMap((primal) => {
    const pieces = parts.reduce((sum, part) => sum + (part.primal === primal.code ? part.count : 0), 0);
    const of = primal.pair ? 2 : 1;
    return pieces > 0 ? [{ ...primal, share: (primal.share * Math.min(pieces, of)) / of }] : [];
  });
}

/** Codes of the primals that a front and a hind quarter are named after; each species has one of each. */
const FRONT = ['shoulder', 'chuck'];
const HIND = ['haunch', 'ham', 'round'];

/**
 * Counts of an animal that came in four quarters: two fronts, two hinds. Empty for a species without such primals.
 * @example quartersOf([{ code: 'neck' }, { code: 'shoulder' }, { code: 'ham' }]) // { shoulder: 2, ham: 2 }
 */
export function quartersOf(primals: readonly { code: string }[]): Record<string, number> {
  const limbs = primals.filter(({ code }) => FRONT.includes(code) || HIND.includes(code));
  return Object.fromEntries(limbs.map(({ code }) => [code, 2]));
}

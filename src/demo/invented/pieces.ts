/** Orders by piece: keeps whole the set of pieces whose share is nearest to the wanted one. */
import { wholeCutsShare, type PrimalShare } from '../../core/species/cutting.ts';
import type { PrimalOrder, PrimalUse } from '../../desk/contract/contract.ts';
import type { Draw } from './draw.ts';
import { ORDERS } from './invention.ts';

const ANY_USE: readonly PrimalUse[] = ['roasts'];

/** Null if no set of the received pieces is near enough. */
export function piecesNear(
  there: readonly PrimalShare[],
  cutsShare: number,
  draw: Draw,
): PrimalOrder[] | null {
  const { uses, sizes, nearest } = ORDERS.pieces;
  const keep = (bits: number): PrimalOrder[] =>
    there.map(({ code }, i) => ({ primal: code, as: bits & (1 << i) ? 'roasts' : 'grind', size: '' }));
  let best = 0;
  let off = Infinity;
  for (let bits = 1; bits < 2 ** there.length - 1; bits++) {
    const by = Math.abs(wholeCutsShare(there, keep(bits)) - cutsShare);
    if (by < off) [best, off] = [bits, by];
  }
  if (off > nearest) return null;
  return keep(best).map((order): PrimalOrder => {
    const { primal } = order;
    if (order.as === 'grind') return order;
    const use: PrimalUse = draw.pick(uses[primal] ?? ANY_USE);
    return { primal, as: use, size: draw.pick(sizes[use] ?? ['']) };
  });
}

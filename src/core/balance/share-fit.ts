/** The joint likelihood of the weighed parts of one animal. */
import { closedFit } from './closed-fit.ts';
import { openFit } from './open-fit.ts';
import type { PartsWeighed } from './part-shares.ts';
import type { ShareModel } from './share-model.ts';

const fits = new WeakMap<ShareModel, (parts: PartsWeighed) => number>();

/**
 * Returns a function that gives the natural logarithm of the relative likelihood of weighed parts, near 0 for a usual animal.
 * Parts that were not weighed are integrated out. One call takes a few microseconds: hundreds of possible slips are tried
 * on every set.
 */
export function shareFit(model: ShareModel): (parts: PartsWeighed) => number {
  let fit = fits.get(model);
  if (!fit) fits.set(model, (fit = createFit(model)));
  return fit;
}

/** Each half is prepared at its first use: the Table asks for one of them, with every weight. */
function createFit(model: ShareModel): (parts: PartsWeighed) => number {
  let open: ((parts: PartsWeighed) => number) | undefined;
  let closed: ((parts: PartsWeighed) => number) | undefined;
  return (parts) =>
    Object.values(parts).some((part) => part.open)
      ? (open ??= openFit(model))(parts)
      : (closed ??= closedFit(model))(parts);
}

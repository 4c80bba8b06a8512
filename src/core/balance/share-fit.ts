/** The joint likelihood of the weighed parts of one animal. */
import { closedFit } from './closed-fit.ts';
import { openFit } from './open-fit.ts';
import type { PartsWeighed } from './part-shares.ts';
import type { ShareModel } from './share-model.ts';

/**
 * Returns a function that gives the natural logarithm of the relative likelihood of weighed parts, near 0 for a usual animal.
 * Parts that were not weighed are integrated out. One call takes a few microseconds: hundreds of possible slips are tried
 * on every set.
 */
export function shareFit(model: ShareModel): (parts: PartsWeighed) => number {
  const open = openFit(model);
  const closed = closedFit(model);
  return (parts) => (Object.values(parts).some((part) => part.open) ? open(parts) : closed(parts));
}

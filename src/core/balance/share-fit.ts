/** How well the weighed parts of one animal fit what its kind usually gives, all of them together. */
import { closedFit } from './closed-fit.ts';
import { openFit } from './open-fit.ts';
import type { PartsWeighed } from './part-shares.ts';
import type { ShareModel } from './share-model.ts';

/**
 * A function that gives the natural logarithm of the relative likelihood of weighed parts, near 0 where everything is just
 * as usual. Parts that were not weighed are integrated out. What is still open (cutting goes on) is taken at its likeliest
 * value at or above what was weighed, so that totes to come are no fault. One call takes a few microseconds: hundreds of
 * possible slips are tried on every set.
 */
export function shareFit(model: ShareModel): (parts: PartsWeighed) => number {
  const open = openFit(model);
  const closed = closedFit(model);
  return (parts) => (Object.values(parts).some((part) => part.open) ? open(parts) : closed(parts));
}

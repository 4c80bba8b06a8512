/**
 * Variance components of trim fat: shop, kind within shop, and animal within kind. A hierarchical normal model
 * (Gelman et al., Bayesian Data Analysis, 3rd ed., chapter 5; from memory).
 */
import { covarianceOf } from './fat.ts';
import type { CorrelatedFatEstimate, FatEstimate } from './estimates.ts';
import { requireNonNegative, ValidationError } from '../values/validation-error.ts';

/** The estimated mean of a kind, and the standard deviation of single animals about it. */
export interface FatOfKind {
  readonly mean: FatEstimate;
  /** Component of the mean's SD that all kinds of the shop share: how closely it trims. */
  readonly shopSd: number;
  /** Component of this kind alone. */
  readonly kindSd: number;
  readonly ownSd: number;
}

/**
 * Share of a profile's variance that is uncertainty of the kind's mean; the rest is between animals. Our choice, no
 * source: the profiles' spread mostly reflects how a shop trims, which is the same for all its animals.
 */
const MEAN_SHARE = 0.75;
/**
 * Share of the mean's variance that belongs to the shop: a shop that leaves fat on its moose leaves it on its elk, too. The
 * rest belongs to the kind: its feed, and how well the published figure fits. Assumption, no source.
 */
const SHOP_SHARE = 0.5;

/**
 * Divides a published figure's spread between the levels, so that shopSd² + kindSd² = mean.sd² and mean.sd² + ownSd² = sd².
 * @throws ValidationError `share.out-of-range`, `number.not-finite`
 * @example fatOfKind({ mean: 0.03, sd: 0.02 }) // mean: 0.03 ± 0.01732, ownSd: 0.01, shopSd and kindSd: 0.01225
 */
export function fatOfKind({ mean, sd }: FatEstimate): FatOfKind {
  requireNonNegative(sd, 'sd');
  const ofMean = sd * Math.sqrt(MEAN_SHARE);
  return {
    mean: { mean, sd: ofMean },
    shopSd: ofMean * Math.sqrt(SHOP_SHARE),
    kindSd: ofMean * Math.sqrt(1 - SHOP_SHARE),
    ownSd: sd * Math.sqrt(1 - MEAN_SHARE),
  };
}

/**
 * Adds a source that depends on the estimate `kind`: an animal on its kind's mean, or a kind on its shop. Its fat is
 * offset + loading × that estimate + an independent deviation, 0 ± ownSd. Its covariance with any other source is therefore
 * loading times that of `kind`. The other estimates do not change.
 *
 * A test of a batch with this source (`updateFatEstimates`) then moves the animal and, through the covariance, the kind's
 * mean and its other animals. This equals listing mean and deviation as two sources of the same grams, but keeps the parts
 * of a batch as weighed. To drop a source, leave it out of the list: that is the marginal of a joint normal.
 *
 * @returns a new list, the new source last
 * @throws ValidationError `fat.unknown-source` (no estimate `kind`), `id.duplicate`, `share.out-of-range`, `number.not-finite`
 * @example
 * withOneOfKind([{ id: 'moose', mean: 0.01, sd: 0.04 }], { id: 'trim 7', kind: 'moose', ownSd: 0.03 })[1]
 * // { id: 'trim 7', mean: 0.01, sd: 0.05, covariance: { moose: 0.0016 } }
 */
export function withOneOfKind(
  estimates: readonly CorrelatedFatEstimate[],
  {
    id,
    kind,
    ownSd,
    offset = 0,
    loading = 1,
  }: { id: string; kind: string; ownSd: number; offset?: number; loading?: number },
): CorrelatedFatEstimate[] {
  requireNonNegative(ownSd, 'ownSd');
  if (!Number.isFinite(offset + loading)) throw new ValidationError('number.not-finite', 'loading');
  if (estimates.some((estimate) => estimate.id === id))
    throw new ValidationError('id.duplicate', 'id', { id });
  const at = estimates.findIndex((estimate) => estimate.id === kind);
  const on = estimates[at];
  if (!on) throw new ValidationError('fat.unknown-source', 'kind', { id: kind });
  const covariance = Object.fromEntries(
    estimates.map((other, i) => [other.id, loading * covarianceOf(estimates, at, i)]),
  );
  const mean = offset + loading * on.mean;
  return [...estimates, { id, mean, sd: Math.hypot(loading * on.sd, ownSd), covariance }];
}

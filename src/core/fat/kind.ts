/**
 * The variance components of trim fat: what all kinds of a shop share, what the animals of one kind share, and what is
 * one animal's own. A hierarchical normal model (Gelman et al., Bayesian Data Analysis, 3rd ed., chapter 5; from memory).
 */
import { covarianceOf } from './fat.ts';
import { notNegative } from './estimates.ts';
import type { CorrelatedFatEstimate, FatEstimate } from './estimates.ts';
import { ValidationError } from '../values/validation-error.ts';

/** What is believed of the mean of a kind, and how far single animals lie from it (a standard deviation). */
export interface FatOfKind {
  readonly mean: FatEstimate;
  /** The part of the mean's SD that all kinds of the shop share: how closely it trims. */
  readonly shopSd: number;
  /** The part that is this kind's own. */
  readonly kindSd: number;
  readonly ownSd: number;
}

/**
 * How much of a profile's variance is doubt about the kind's mean; the rest is what animals differ by. Our choice, no
 * source: the profiles' spread stands mostly for how a shop trims, which is the same for all its animals.
 */
const MEAN_SHARE = 0.75;
/**
 * How much of the doubt about a kind's mean is the shop's: a shop that leaves fat on its moose leaves it on its elk, too.
 * The other half is the kind's: its feed, and how well the published figure fits. Assumption, no source.
 */
const SHOP_SHARE = 0.5;

/**
 * Divides a published figure's spread between the levels, so that shopSd² + kindSd² = mean.sd² and mean.sd² + ownSd² = sd².
 * @throws ValidationError `share.out-of-range`, `number.not-finite`
 * @example fatOfKind({ mean: 0.03, sd: 0.02 }) // mean: 0.03 ± 0.01732, ownSd: 0.01, shopSd and kindSd: 0.01225
 */
export function fatOfKind({ mean, sd }: FatEstimate): FatOfKind {
  notNegative(sd, 'sd');
  const ofMean = sd * Math.sqrt(MEAN_SHARE);
  return {
    mean: { mean, sd: ofMean },
    shopSd: ofMean * Math.sqrt(SHOP_SHARE),
    kindSd: ofMean * Math.sqrt(1 - SHOP_SHARE),
    ownSd: sd * Math.sqrt(1 - MEAN_SHARE),
  };
}

/**
 * The beliefs with one more source that hangs on a belief `kind`: an animal on its kind's mean, or a kind on its shop.
 * Its fat is offset + loading × that belief + a deviation of its own, 0 ± ownSd and independent of all there is; so its
 * covariance with any other source is loading times the belief's. Nothing is learnt by adding it.
 *
 * A test of a batch with this source in it (`updateFatBeliefs`) then moves the animal, and by its covariance the kind's
 * mean and so the animals to come. It is the same as to list mean and deviation as two sources of the same grams, but
 * here the parts of a batch stay what was weighed in. To forget a source, leave it out of the list: what is known of
 * the others stays the same, for leaving a row out is the marginal of a normal distribution.
 *
 * @returns a new list, the new source last
 * @throws ValidationError `fat.unknown-source` (no belief `kind`), `id.duplicate`, `share.out-of-range`, `number.not-finite`
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
  notNegative(ownSd, 'ownSd');
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

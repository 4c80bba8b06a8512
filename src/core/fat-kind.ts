/** Two levels of belief about trim: the mean of its kind (the moose of this shop) and one animal's own way from it. */
import { covarianceOf } from './fat.ts';
import { notNegative } from './fat-test.ts';
import type { FatBelief, FatGuess } from './fat-test.ts';
import { CoreProblem } from './problem.ts';

/** What is believed of the mean of a kind, and how far single animals lie from it (a standard deviation). */
export interface FatOfKind {
  readonly mean: FatGuess;
  readonly ownSd: number;
}

/**
 * How much of a profile's variance is doubt about the kind's mean; the rest is what animals differ by. Our choice, no
 * source: the profiles' spread stands mostly for how a shop trims, which is the same for all its animals.
 */
const MEAN_SHARE = 0.75;

/**
 * Divides a published figure's spread between the two levels, so that their variances add up to sd².
 * @throws CoreProblem `share.out-of-range`, `number.not-finite`
 * @example fatOfKind({ mean: 0.03, sd: 0.02 }) // { mean: { mean: 0.03, sd: 0.01732 }, ownSd: 0.01 }
 */
export function fatOfKind({ mean, sd }: FatGuess): FatOfKind {
  notNegative(sd, 'sd');
  return { mean: { mean, sd: sd * Math.sqrt(MEAN_SHARE) }, ownSd: sd * Math.sqrt(1 - MEAN_SHARE) };
}

/** What to expect of one more animal of a kind: the kind's mean, with the spread of both levels. */
export function oneOfKind({ mean, ownSd }: FatOfKind): FatGuess {
  return { mean: mean.mean, sd: Math.hypot(mean.sd, ownSd) };
}

/**
 * The beliefs with one more source: an animal of the kind whose mean the belief `kind` is about, of which nothing else
 * is known. Its fat is the mean plus a deviation of its own, 0 ± ownSd and independent of all there is; so its variance
 * is the sum of both, and its covariance with any other source is the mean's. Nothing is learnt by adding it.
 *
 * A test of a batch with this source in it (`updateFatBeliefs`) then moves the animal, and by its covariance the kind's
 * mean and so the animals to come. It is the same as to list mean and deviation as two sources of the same grams, but
 * here the parts of a batch stay what was weighed in. To forget a source, leave it out of the list: what is known of
 * the others stays the same, for leaving a row out is the marginal of a normal distribution.
 *
 * @returns a new list, the new source last
 * @throws CoreProblem `fat.unknown-source` (no belief `kind`), `id.duplicate`, `share.out-of-range`, `number.not-finite`
 * @example
 * withOneOfKind([{ id: 'moose', mean: 0.01, sd: 0.04 }], { id: 'trim 7', kind: 'moose', ownSd: 0.03 })[1]
 * // { id: 'trim 7', mean: 0.01, sd: 0.05, covariance: { moose: 0.0016 } }
 */
export function withOneOfKind(
  beliefs: readonly FatBelief[],
  { id, kind, ownSd }: { id: string; kind: string; ownSd: number },
): FatBelief[] {
  notNegative(ownSd, 'ownSd');
  if (beliefs.some((belief) => belief.id === id)) throw new CoreProblem('id.duplicate', 'id', { id });
  const at = beliefs.findIndex((belief) => belief.id === kind);
  const mean = beliefs[at];
  if (!mean) throw new CoreProblem('fat.unknown-source', 'kind', { id: kind });
  const covariance = Object.fromEntries(beliefs.map((other, i) => [other.id, covarianceOf(beliefs, at, i)]));
  return [...beliefs, { id, ...oneOfKind({ mean, ownSd }), covariance }];
}

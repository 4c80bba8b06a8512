/** What the shop believes about the fat of its trim, and how a fat test of a finished batch changes that. */
import { fraction, notNegative, sharesOf } from './estimates.ts';
import type { CorrelatedFatEstimate, FatTest } from './estimates.ts';
import { ValidationError } from '../values/validation-error.ts';

export type { CorrelatedFatEstimate, FatEstimate, FatTest } from './estimates.ts';

/**
 * Beliefs after a fat test of a batch, by the linear Gaussian update (the measurement step of the Kalman filter,
 * J. Basic Eng. 82:35, 1960). The batch's fat is h·f with h the shares of the sources in it; with P the beliefs'
 * covariance, S = h·P·h + measuredSd²:
 *
 *     means += P·h / S × (measuredFat − h·means)        P −= (P·h)(P·h)ᵀ / S
 *
 * So the surprise goes to the sources in proportion to how unsure each is and how much of it went in; no spread
 * ever grows; and a test of a mixture ties its sources together (negative covariance), which the next test uses.
 * Sources that are not in the batch change only as far as earlier tests tied them to it.
 *
 * A mean may come out below 0 or above 1: it is not cut off, for that would hide a wrong test or weight. See
 * `fatTestSurprise`. Only a variance that rounding puts below 0 is set to 0.
 *
 * @returns the beliefs in the order given, each with its covariances
 * @throws ValidationError `beliefs.empty`, `parts.empty`, `id.duplicate`, `fat.unknown-source`, `grams.negative`,
 *   `grams.not-positive` (an empty batch), `number.not-finite`, `share.out-of-range`, `fat.certain` (beliefs and
 *   test all without spread, so that nothing can be learnt)
 * @example
 * // One source, 0.06 ± 0.03, tested at 0.09 ± 0.03: half way, 0.075 ± 0.0212
 * updateFatBeliefs([{ id: 'elk', mean: 0.06, sd: 0.03 }],
 *   { parts: [{ id: 'elk', grams: 5000 }], measuredFat: 0.09, measuredSd: 0.03 });
 */
export function updateFatEstimates(
  estimates: readonly CorrelatedFatEstimate[],
  test: FatTest,
): CorrelatedFatEstimate[] {
  const { crossCovariance, innovation, innovationVariance } = innovationOf(estimates, test);
  if (innovationVariance === 0) throw new ValidationError('fat.certain', 'measuredSd');
  return estimates.map((estimate, i) => {
    const gain = (crossCovariance[i] as number) / innovationVariance;
    // Without a prototype the engine keeps a hash from the start; with one, a new layout for every set of sources.
    const covariance = Object.create(null) as Record<string, number>;
    estimates.forEach((other, j) => {
      if (i !== j)
        covariance[other.id] =
          covarianceOf(estimates, i, j) -
          ((crossCovariance[i] as number) * (crossCovariance[j] as number)) / innovationVariance;
    });
    const variance = Math.max(0, estimate.sd ** 2 - gain * (crossCovariance[i] as number));
    return { ...estimate, mean: estimate.mean + gain * innovation, sd: Math.sqrt(variance), covariance };
  });
}

/**
 * How far the test lies from its prediction, and the variance of that prediction, the test's own error in it.
 * @throws ValidationError as `updateFatBeliefs`
 */
export function fatTestInnovation(
  estimates: readonly CorrelatedFatEstimate[],
  test: FatTest,
): { innovation: number; variance: number } {
  const { innovation, innovationVariance } = innovationOf(estimates, test);
  if (innovationVariance === 0) throw new ValidationError('fat.certain', 'measuredSd');
  return { innovation, variance: innovationVariance };
}

/** P·h for every belief, the test's difference from what was foretold, and the variance S of that difference. */
function innovationOf(
  estimates: readonly CorrelatedFatEstimate[],
  test: FatTest,
): { crossCovariance: number[]; innovation: number; innovationVariance: number } {
  const shares = sharesOf(estimates, test);
  fraction(test.measuredFat, 'measuredFat');
  notNegative(test.measuredSd, 'measuredSd');
  const crossCovariance = estimates.map((_, i) =>
    shares.reduce((sum, share, j) => sum + (share === 0 ? 0 : share * covarianceOf(estimates, i, j)), 0),
  );
  const predicted = shares.reduce(
    (sum, share, i) => sum + share * (estimates[i] as CorrelatedFatEstimate).mean,
    0,
  );
  const known = shares.reduce((sum, share, i) => sum + share * (crossCovariance[i] as number), 0);
  return {
    crossCovariance,
    innovation: test.measuredFat - predicted,
    innovationVariance: Math.max(0, known) + test.measuredSd ** 2,
  };
}

/** The covariance of the i-th and the j-th belief; of one with itself, its variance. */
export function covarianceOf(estimates: readonly CorrelatedFatEstimate[], i: number, j: number): number {
  const estimate = estimates[i] as CorrelatedFatEstimate;
  if (i === j) return estimate.sd ** 2;
  const other = estimates[j] as CorrelatedFatEstimate;
  return estimate.covariance?.[other.id] ?? other.covariance?.[estimate.id] ?? 0;
}

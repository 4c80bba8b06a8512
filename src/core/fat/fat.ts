/** Updates the estimated fat of trim and fat sources after a fat test of a finished batch. */
import { sharesOf } from './estimates.ts';
import type { CorrelatedFatEstimate, FatTest } from './estimates.ts';
import { requireFraction, requireNonNegative, ValidationError } from '../values/validation-error.ts';

export type { CorrelatedFatEstimate, FatEstimate, FatTest } from './estimates.ts';

/**
 * The estimates after a fat test of a batch, by the linear Gaussian update (the measurement step of the Kalman filter,
 * J. Basic Eng. 82:35, 1960). The batch's fat is h·f with h the shares of the sources in it; with P the covariance of the
 * estimates, S = h·P·h + measuredSd²:
 *
 *     means += P·h / S × (measuredFat − h·means)        P −= (P·h)(P·h)ᵀ / S
 *
 * The innovation is divided in proportion to each source's uncertainty and share. No variance grows. A test of a mixture
 * makes its sources negatively correlated, which the next test uses. Sources that are not in the batch change only through
 * their correlation with it.
 *
 * A mean may come out below 0 or above 1. It is not clamped: that would hide a wrong test or weight. Only a variance that
 * rounding puts below 0 is set to 0.
 *
 * @returns the estimates in the order given, each with its covariances
 * @throws ValidationError `estimates.empty`, `parts.empty`, `id.duplicate`, `fat.unknown-source`, `grams.negative`,
 *   `grams.not-positive` (an empty batch), `number.not-finite`, `share.out-of-range`, `fat.certain` (estimates
 *   and test all without variance, so that nothing can be learned)
 * @example
 * // One source, 0.06 ± 0.03, tested at 0.09 ± 0.03: halfway, 0.075 ± 0.0212
 * updateFatEstimates([{ id: 'elk', mean: 0.06, sd: 0.03 }],
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
    // Without a prototype the engine uses a hash table; with one it creates a hidden class for every set of sources.
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
 * The innovation (test less prediction) and its variance, the test's own error included.
 * @throws ValidationError as `updateFatEstimates`
 */
export function fatTestInnovation(
  estimates: readonly CorrelatedFatEstimate[],
  test: FatTest,
): { innovation: number; variance: number } {
  const { innovation, innovationVariance } = innovationOf(estimates, test);
  if (innovationVariance === 0) throw new ValidationError('fat.certain', 'measuredSd');
  return { innovation, variance: innovationVariance };
}

/** P·h for every estimate, the innovation, and its variance S. */
function innovationOf(
  estimates: readonly CorrelatedFatEstimate[],
  test: FatTest,
): { crossCovariance: number[]; innovation: number; innovationVariance: number } {
  const shares = sharesOf(estimates, test);
  requireFraction(test.measuredFat, 'measuredFat');
  requireNonNegative(test.measuredSd, 'measuredSd');
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

/** The covariance of estimates i and j; the variance where i = j. */
export function covarianceOf(estimates: readonly CorrelatedFatEstimate[], i: number, j: number): number {
  const estimate = estimates[i] as CorrelatedFatEstimate;
  if (i === j) return estimate.sd ** 2;
  const other = estimates[j] as CorrelatedFatEstimate;
  return estimate.covariance?.[other.id] ?? other.covariance?.[estimate.id] ?? 0;
}

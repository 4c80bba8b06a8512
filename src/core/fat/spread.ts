/**
 * The animal-to-animal variance component of trim fat, learned from the shop's own fat tests as a posterior over a
 * grid (Gelman et al., Bayesian Data Analysis, 3rd ed., sections 5.4 and 11.6; from memory).
 */
import { requireNonNegative, ValidationError } from '../values/validation-error.ts';

/** Probability of each point of the grid. */
export type FatSpread = readonly number[];

/**
 * SD of the natural logarithm of the ratio between a kind's true animal-to-animal SD and the typical one: two kinds in
 * three lie between 0.7 and 1.4 times. Assumption, no source.
 */
const LOG_SD = 0.35;
const POINTS = 31;
/** The grid ends this many LOG_SD from its centre. */
const REACH = 6;

const logs = Array.from({ length: POINTS }, (_, i) => LOG_SD * REACH * ((2 * i) / (POINTS - 1) - 1));
/** Ratios of variances at the points of the grid. */
const RATIOS: readonly number[] = logs.map((log) => Math.exp(2 * log));

/** Log-normal with the typical spread as its median. */
export const PRIOR_SPREAD: FatSpread = normalise(logs.map((log) => Math.exp(-0.5 * (log / LOG_SD) ** 2)));

/** The prior: ratios of variances and their probabilities. */
export function spreadRatios(): { ratio: number; probability: number }[] {
  return RATIOS.map((ratio, i) => ({ ratio, probability: PRIOR_SPREAD[i] as number }));
}

/**
 * Posterior mean of the ratio between the animal-to-animal variance and the typical one. The predictive variance of an
 * animal is linear in the ratio, so its mean suffices. Before any test it is exp(2 × LOG_SD²) = 1.28: an unknown variance
 * widens a prediction, as with Student's t.
 */
export function varianceRatio(spread: FatSpread): number {
  return spread.reduce((sum, weight, i) => sum + weight * (RATIOS[i] as number), 0);
}

/**
 * The posterior after a test that lies `innovation` from its prediction. `variance` is the predictive variance of the test
 * at the current mean ratio, of which `ownVariance` × ratio comes from the animals. Each grid point is weighted by the
 * normal likelihood of the innovation. Other kinds in the batch are held at their posterior means (a mean-field
 * approximation; exact for batches of one kind whose mean is known).
 * @throws ValidationError `share.out-of-range`, `number.not-finite`, `fat.certain`
 * @example varianceRatio(updateSpread(PRIOR_SPREAD, { innovation: 0.06, variance: 0.0005, ownVariance: 0.0001 })) // 1.5
 */
export function updateSpread(
  spread: FatSpread,
  { innovation, variance, ownVariance }: { innovation: number; variance: number; ownVariance: number },
): FatSpread {
  if (!Number.isFinite(innovation)) throw new ValidationError('number.not-finite', 'innovation');
  requireNonNegative(variance, 'variance');
  requireNonNegative(ownVariance, 'ownVariance');
  if (variance === 0) throw new ValidationError('fat.certain', 'variance');
  if (ownVariance === 0) return spread;
  const rest = Math.max(0, variance - ownVariance * varianceRatio(spread));
  const logLikelihoods = RATIOS.map((ratio) => {
    const at = rest + ownVariance * ratio;
    return -0.5 * (Math.log(at) + innovation ** 2 / at);
  });
  const most = Math.max(...logLikelihoods);
  return normalise(spread.map((weight, i) => weight * Math.exp((logLikelihoods[i] as number) - most)));
}

function normalise(weights: readonly number[]): number[] {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

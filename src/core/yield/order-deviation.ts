/** Predicts how far a result deviates from what was ordered, from earlier deviations. */
import type { StudentT } from '../stats/student-t.ts';
import { ValidationError } from '../values/validation-error.ts';
import { logit } from './tree.ts';

/** The normal-inverse-chi-square prior of a deviation; its mean is 0. */
export interface DeviationPrior {
  /** Standard deviation of one result about the shop's own mean. */
  readonly spread: number;
  /** Prior sample size of the mean, and prior degrees of freedom of the spread. */
  readonly priorSampleSize: number;
  readonly priorDegrees: number;
}

/**
 * The predictive distribution of the next result, normal with unknown mean and variance (Gelman et al., Bayesian Data
 * Analysis, 3rd ed., section 3.3): with n results of mean m and squares S about it, k = priorSampleSize, d = priorDegrees,
 *
 *     location = n m / (k + n)       degrees = d + n
 *     spread² = (d spread₀² + S + k n m² / (k + n)) / (d + n)       scale = spread × √(1 + 1 / (k + n))
 *
 * @throws ValidationError `number.not-finite` (a result), `amount.not-positive` (a field of the prior)
 * @example predictDeviation([1, 3], { spread: 1, priorSampleSize: 2, priorDegrees: 2 }) // location 1, degrees 4, scale √2.5
 */
export function predictDeviation(results: readonly number[], prior: DeviationPrior): StudentT {
  results.forEach((result, i) => {
    if (!Number.isFinite(result)) throw new ValidationError('number.not-finite', `results[${i}]`);
  });
  return predictDeviationFromSums(
    results.reduce(
      ({ n, sum, squares }, result) => ({ n: n + 1, sum: sum + result, squares: squares + result * result }),
      { n: 0, sum: 0, squares: 0 },
    ),
    prior,
  );
}

/** Sufficient statistics of results: their count, sum and sum of squares. */
export interface DeviationSums {
  readonly n: number;
  readonly sum: number;
  readonly squares: number;
}

/** As `predictDeviation`, from sufficient statistics. @throws ValidationError `amount.not-positive` (a field of the prior) */
export function predictDeviationFromSums(
  { n, sum, squares: raw }: DeviationSums,
  prior: DeviationPrior,
): StudentT {
  for (const [field, value] of Object.entries(prior))
    if (!(value > 0 && Number.isFinite(value)))
      throw new ValidationError('amount.not-positive', `prior.${field}`);
  const mean = n === 0 ? 0 : sum / n;
  const squares = Math.max(0, raw - n * mean ** 2);
  const { spread, priorSampleSize, priorDegrees } = prior;
  const sampleSize = priorSampleSize + n;
  const degrees = priorDegrees + n;
  const variance =
    (priorDegrees * spread ** 2 + squares + (priorSampleSize * n * mean ** 2) / sampleSize) / degrees;
  return { location: (n * mean) / sampleSize, scale: Math.sqrt(variance * (1 + 1 / sampleSize)), degrees };
}

/**
 * The deviation of a share from the ordered share p: the difference of their logits times √(p (1 − p)), the
 * standard deviation of a binomial share, so that deviations from all orders are on one scale.
 * @example logitDeviation(0.5, 0.55) // 0.1: ln(0.55 / 0.45) = 0.2, times one half
 */
export function logitDeviation(ordered: number, made: number): number {
  return (logit(made) - logit(ordered)) * binomialSd(ordered);
}

/** The predicted share for an order, on the logit scale, given the predicted `logitDeviation`. */
export function predictShare(ordered: number, { location, scale, degrees }: StudentT): StudentT {
  const sd = binomialSd(ordered);
  return { location: logit(ordered) + location / sd, scale: scale / sd, degrees };
}

/** Throws for 0 and 1, which cannot deviate. @throws ValidationError `share.range` */
function binomialSd(ordered: number): number {
  if (!(ordered > 0 && ordered < 1)) throw new ValidationError('share.range', 'ordered');
  return Math.sqrt(ordered * (1 - ordered));
}

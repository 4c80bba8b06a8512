/**
 * Prior-data conflict: robust priors that yield where the animals contradict the prior mean.
 *
 * A normal prior does not. In a busy shop the other animals fix the residual variance, and a wrong prior mean for a
 * new species keeps the weight of all its prior animals. So the prior of an effect has a heavy tail: a mixture of
 * the stated normal and, with a small probability, a much wider one about the same mean. Heavy tails that let data
 * reject a prior: O'Hagan, JRSS B 41:358 (1979); West, JRSS B 46:431 (1984). Mixture of a stated and a vague
 * conjugate prior: Schmidli et al., Biometrics 70:1023 (2014), `robustify` of the R package RBesT. Volumes and
 * pages from memory.
 */
import { mixtureWeights, weightedMean } from '../stats/mixture.ts';
import type { Column } from './columns.ts';
import type { Posterior } from './regression.ts';

/**
 * Variance that the wide component adds to the stated one, in squared standard deviations of an animal: a wrong
 * prior mean may be off by two or three of them. Our choice.
 */
const ADDED_VARIANCE = 6;
/** Information about an effect, in animals, below which it is rounding. */
const NEGLIGIBLE_INFORMATION = 1e-6;

export interface Reweighted {
  /** The columns, each with the one normal prior that gives its effect the mixture's posterior mean. */
  readonly columns: readonly Column[];
  /** By column: the posterior variance between the two components (absolute). */
  readonly betweenComponents: readonly number[];
}

/**
 * Weights the two components of every column's prior by the marginal likelihood of all animals, with the other columns at
 * their stated priors. `posterior` is the one under the stated priors.
 *
 * Removing the column's own prior from its posterior leaves the likelihood of the effect: an estimate `d`
 * with information `h`, d | b, s2 ~ N(b, s2 / h). Under a prior variance V (over s2) the marginal likelihood is, up to
 * a constant, (V + 1/h)^-1/2 (2b0 + (d - m0)^2 / (V + 1/h))^-a, the posterior mean moves the fraction V / (V + 1/h)
 * of the way from m0 to d, and mixture components differ in that fraction alone.
 */
export function reweightPriors(columns: readonly Column[], posterior: Posterior): Reweighted {
  const effects = columns.map((column, i) => reweight(column, i, posterior));
  return {
    columns: columns.map((column, i) => ({ ...column, variance: effects[i]?.variance ?? column.variance })),
    betweenComponents: effects.map(({ betweenComponents }) => betweenComponents),
  };
}

function reweight(
  { priorMean, variance, robustWeight = 0 }: Column,
  i: number,
  { effects, covariance, variance: residual, degrees }: Posterior,
): { variance: number; betweenComponents: number } {
  const precision = 1 / (covariance.values[i * covariance.size + i] ?? 0);
  const information = precision - 1 / variance;
  if (robustWeight === 0 || information < NEGLIGIBLE_INFORMATION) return { variance, betweenComponents: 0 };
  const estimate = ((effects[i] ?? 0) * precision - priorMean / variance) / information;
  const squaredDeviation = (estimate - priorMean) ** 2;

  const total = (prior: number): number => prior + 1 / information;
  const withoutConflict = degrees * residual - squaredDeviation / total(variance);
  const logLikelihood = (prior: number): number =>
    -Math.log(total(prior)) / 2 - (degrees / 2) * Math.log(withoutConflict + squaredDeviation / total(prior));
  const wide = variance + ADDED_VARIANCE;
  const weights = mixtureWeights([
    Math.log(1 - robustWeight) + logLikelihood(variance),
    Math.log(robustWeight) + logLikelihood(wide),
  ]);
  const fractions = [variance / total(variance), wide / total(wide)];
  const mean = weightedMean(fractions, weights);
  const fractionVariance = weightedMean(
    fractions.map((fraction) => (fraction - mean) ** 2),
    weights,
  );
  // The variance V with V / (V + 1/h) = mean, written without the difference 1 - mean.
  return {
    variance: mean / weightedMean([1 / total(variance), 1 / total(wide)], weights),
    betweenComponents: squaredDeviation * fractionVariance,
  };
}

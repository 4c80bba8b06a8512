/**
 * The joint distribution of the parts' shares in a shop's animals of one kind: multivariate normal with missing data. The
 * published figures are the prior; parts that were not weighed are estimated from those that were.
 */
import { inverse, Matrix } from 'ml-matrix';
import {
  positionsOf,
  SHARE_PARTS,
  DAMAGE_OFFSET,
  type DamageSums,
  type KindSums,
  type PatternSums,
} from './part-shares.ts';
import { momentsAmongDamaged, probabilityOfNone } from '../yield/zero-damage.ts';
import type { SharePrior } from './share-prior.ts';

/** Predictive distribution of one more animal of the kind. */
export interface ShareModel {
  readonly mean: readonly number[];
  readonly covariance: Matrix;
  /** The degrees of freedom of its Student's t. */
  readonly degrees: number;
  /**
   * Probability that there is no damage; where there is any, a Student's t on the logarithm of share + `DAMAGE_OFFSET`.
   */
  readonly damage: {
    readonly none: number;
    readonly logMean: number;
    readonly logSd: number;
    readonly degrees: number;
  };
  /** Animals of the shop's own behind it. */
  readonly animals: number;
}

/**
 * Share of the prior's variance between animals of one shop; the rest is between shops and kinds. The prior sample
 * size of the mean is then `s / (1 - s)`. Our own choice, like the variances in `yield/columns.ts`.
 */
const WITHIN_SHOP_SHARE = 0.75;
const PRIOR_MEAN_ANIMALS = WITHIN_SHOP_SHARE / (1 - WITHIN_SHOP_SHARE);
/** Prior sample size of the covariance. */
const PRIOR_COVARIANCE_ANIMALS = 6;
/** Prior sample size of the published mean and SD of damage: shops define damage differently. */
const DAMAGE_ANIMALS = 4;

const MAX_ITERATIONS = 60;
/** Largest change of a mean share between two iterations at convergence. */
const CONVERGENCE_TOLERANCE = 1e-6;

/**
 * Posterior mode by expectation-maximisation: the E step completes the sums of each pattern by regression on the parts
 * that were weighed, the M step adds the normal-inverse-Wishart prior. Source: Little & Rubin, Statistical Analysis with
 * Missing Data, 2nd ed., Wiley 2002, section 11.2 (multivariate normal, sufficient statistics by pattern); prior: Gelman
 * et al., Bayesian Data Analysis, 3rd ed., section 3.6. Both from memory.
 *
 * One more animal is a multivariate Student's t with ν - d + 1 degrees of freedom and covariance Λ / (ν - d - 1) · (1 + 1/κ),
 * with ν and Λ the degrees and the scale of the posterior, d the dimensions and κ the sample size of the mean (same
 * section). The covariance fitted here is Λ / (ν - d - 1) with ν - d - 1 = `PRIOR_COVARIANCE_ANIMALS` + animals, two less
 * than the degrees of freedom. A new shop's spread is a guess: its animals crowd nearer to the middle than a normal's of
 * the same variance, and reach farther out.
 */
export function shareModel(prior: SharePrior, kind?: KindSums): ShareModel {
  const within = Matrix.mul(prior.covariance, WITHIN_SHOP_SHARE);
  const priorMean = Matrix.columnVector([...prior.mean]);
  const patterns = Object.entries(kind?.patterns ?? {}).filter(([, { n }]) => n > 0);
  const animals = patterns.reduce((total, [, { n }]) => total + n, 0);
  let mean = priorMean.clone();
  let covariance = within.clone();
  for (let round = 0; animals > 0 && round < MAX_ITERATIONS; round++) {
    const first = Matrix.mul(priorMean, PRIOR_MEAN_ANIMALS);
    const second = Matrix.mul(outer(priorMean), PRIOR_MEAN_ANIMALS).add(
      Matrix.mul(within, PRIOR_COVARIANCE_ANIMALS),
    );
    for (const [pattern, sums] of patterns)
      addExpectedStatistics(positionsOf(pattern), sums, mean, covariance, first, second);
    const next = first.div(PRIOR_MEAN_ANIMALS + animals);
    covariance = second
      .sub(Matrix.mul(outer(next), PRIOR_MEAN_ANIMALS + animals))
      .div(PRIOR_COVARIANCE_ANIMALS + animals);
    const change = Matrix.sub(next, mean).abs().max();
    mean = next;
    if (change < CONVERGENCE_TOLERANCE) break;
  }
  // The predictive covariance includes the uncertainty of the mean.
  covariance.mul(1 + 1 / (PRIOR_MEAN_ANIMALS + animals));
  return {
    mean: mean.to1DArray(),
    covariance,
    degrees: PRIOR_COVARIANCE_ANIMALS + animals + 2,
    damage: damageOf(prior, kind?.damage),
    animals,
  };
}

/** E step: adds the expected complete-data sums of the animals of one pattern. */
function addExpectedStatistics(
  observed: readonly number[],
  { n, sums, products }: PatternSums,
  mean: Matrix,
  covariance: Matrix,
  first: Matrix,
  second: Matrix,
): void {
  const at = [...observed];
  const all = SHARE_PARTS.map((_, i) => i);
  const missing = all.filter((i) => !observed.includes(i));
  const regression = Matrix.zeros(all.length, at.length);
  at.forEach((i, j) => regression.set(i, j, 1));
  const left = Matrix.zeros(all.length, all.length);
  if (missing.length > 0) {
    const weights = covariance
      .subMatrixRow(missing)
      .subMatrixColumn(at)
      .mmul(inverse(covariance.selection(at, at)));
    const rest = covariance.selection(missing, missing).sub(weights.mmul(covariance.selection(at, missing)));
    missing.forEach((i, row) => {
      at.forEach((_, j) => regression.set(i, j, weights.get(row, j)));
      missing.forEach((k, column) => left.set(i, k, n * rest.get(row, column)));
    });
  }
  // Conditional mean of an animal: offset + regression × (weighed parts).
  const offset = Matrix.sub(mean, regression.mmul(mean.subMatrixRow(at)));
  const sum = Matrix.columnVector([...sums]);
  const square = Matrix.from1DArray(at.length, at.length, [...products]);
  const fitted = regression.mmul(sum);
  first.add(Matrix.mul(offset, n)).add(fitted);
  const cross = offset.mmul(fitted.transpose());
  second
    .add(Matrix.mul(outer(offset), n))
    .add(cross)
    .add(cross.transpose())
    .add(regression.mmul(square).mmul(regression.transpose()))
    .add(left);
}

function outer(column: Matrix): Matrix {
  return column.mmul(column.transpose());
}

/**
 * Damage of one more animal: none, or log-normal with the published moments, which are those of clean and bad shots
 * together (`momentsAmongDamaged`), updated by animals with weighed damage. The predictive of a normal with unknown mean
 * and variance is a Student's t: Gelman et al., section 3.3, from memory.
 */
function damageOf(prior: SharePrior, sums?: DamageSums): ShareModel['damage'] {
  const at = SHARE_PARTS.indexOf('damage');
  const published = { mean: prior.mean[at] ?? 0, sd: Math.sqrt(prior.covariance.get(at, at)) };
  const damaged = momentsAmongDamaged(published);
  const mean = damaged.mean + DAMAGE_OFFSET;
  const priorVariance = Math.log1p((damaged.sd / mean) ** 2);
  const priorLog = Math.log(mean) - priorVariance / 2;
  const { zeros, n, sum, squares } = sums ?? { zeros: 0, n: 0, sum: 0, squares: 0 };
  const animals = DAMAGE_ANIMALS + n;
  const logMean = (DAMAGE_ANIMALS * priorLog + sum) / animals;
  const about = squares - 2 * logMean * sum + n * logMean ** 2 + DAMAGE_ANIMALS * (priorLog - logMean) ** 2;
  const variance = (DAMAGE_ANIMALS * priorVariance + about) / animals;
  return {
    none: probabilityOfNone(zeros, zeros + n),
    logMean,
    logSd: Math.sqrt(variance * (1 + 1 / animals)),
    degrees: animals,
  };
}

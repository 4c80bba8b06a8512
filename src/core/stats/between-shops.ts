/**
 * What shops of one owner tell of one more shop of his. The effects of a shop (its hand, its species) are those of the owner
 * plus a deviation of its own:
 *
 *     shop = owner + own,   owner ~ N(m0, (1 - t) V),   own ~ N(0, t V)
 *
 * V is the prior variance of one shop alone, so that a shop without siblings keeps exactly that prior. How far shops are
 * apart, t, is learned: each value of a grid is weighted by the marginal likelihood of the siblings' animals. Above 1 they
 * are farther apart than one shop's prior says, and tell nothing but that. A hierarchical normal model with the variance
 * between groups integrated over its posterior (Gelman et al., Bayesian Data Analysis, 3rd ed., sections 5.4 and 11.6;
 * from memory). Few groups tell little of that variance, so the grid's prior matters: it is our choice.
 */
import { invert, zeros, type Square } from './positive-definite.ts';

/** What one shop's animals say of its effects: their log likelihood is moments'c - c' information c / 2. */
export interface ShopEvidence {
  readonly information: Square;
  readonly moments: readonly number[];
}

/** The prior of one shop's effects, independent of each other. */
export interface ShopPrior {
  readonly means: readonly number[];
  readonly variances: readonly number[];
}

/** The distribution of one more shop's effects where shops are so far apart. */
export interface ShopGuess {
  readonly apart: number;
  /** Logarithm of prior weight times marginal likelihood of the siblings, up to a constant. */
  readonly logWeight: number;
  readonly means: readonly number[];
  readonly covariance: Square;
}

/** How far apart shops may be, and how likely each is before any shop is known. Our choice, no source. */
const APART: readonly { readonly t: number; readonly weight: number }[] = [
  { t: 0.05, weight: 0.12 },
  { t: 0.15, weight: 0.16 },
  { t: 0.35, weight: 0.18 },
  { t: 0.65, weight: 0.2 },
  { t: 1, weight: 0.27 },
  { t: 2, weight: 0.07 },
];

/** What the owner's part keeps of the variance where all of it is the shop's own: it must not be 0. */
const LEAST_SHARED = 1e-9;

/**
 * One guess for each distance of the grid.
 * @param widened prior variances of the owner's effects where the siblings' animals contradict the stated ones; default: the stated
 */
export function guessesFrom(
  prior: ShopPrior,
  shops: readonly ShopEvidence[],
  widened: readonly number[] = prior.variances,
): ShopGuess[] {
  const size = prior.means.length;
  const told = Array.from({ length: size }, (_, i) => i).filter((i) =>
    shops.some(({ information }) => (information.values[i * size + i] ?? 0) > 0),
  );
  const of = (values: readonly number[]): number[] => told.map((i) => values[i] ?? 0);
  const stated = { means: of(prior.means), variances: of(prior.variances), widened: of(widened) };
  const evidence = shops.map(({ information, moments }) => ({
    information: part(information, told),
    moments: of(moments),
  }));
  return APART.map(({ t, weight }) => {
    const owner = ownerAt(t, stated, evidence);
    const means = [...prior.means];
    const covariance = zeros(size);
    prior.variances.forEach((variance, i) => {
      covariance.values[i * size + i] = variance * Math.max(1, t);
    });
    told.forEach((i, a) => {
      means[i] = owner.means[a] ?? 0;
      told.forEach((j, b) => {
        const own = i === j ? t * (prior.variances[i] ?? 0) : 0;
        covariance.values[i * size + j] = (owner.covariance.values[a * told.length + b] ?? 0) + own;
      });
    });
    return { apart: t, logWeight: Math.log(weight) + owner.logLikelihood, means, covariance };
  });
}

/**
 * The posterior of the owner's effects where shops are `t` apart. With D = tV and H, r of a shop, integrating its own
 * deviation out leaves the information D^-1 - D^-1 M D^-1 and the moments D^-1 M r with M = (H + D^-1)^-1.
 */
function ownerAt(
  t: number,
  prior: ShopPrior & { readonly widened: readonly number[] },
  shops: readonly ShopEvidence[],
): { means: number[]; covariance: Square; logLikelihood: number } {
  const size = prior.means.length;
  const shared = prior.widened.map((wide, i) => {
    const stated = prior.variances[i] ?? 0;
    return Math.max(wide - t * stated, LEAST_SHARED * stated);
  });
  const information = zeros(size);
  const moments = prior.means.map((mean, i) => mean / (shared[i] ?? 1));
  let logLikelihood = 0;
  shared.forEach((variance, i) => {
    information.values[i * size + i] = 1 / variance;
    logLikelihood -= (Math.log(variance) + (prior.means[i] ?? 0) ** 2 / variance) / 2;
  });
  const ownPrecision = prior.variances.map((variance) => 1 / (t * variance));
  for (const shop of shops) {
    const both = { size, values: shop.information.values.slice() };
    ownPrecision.forEach((precision, i) => {
      both.values[i * size + i] = (both.values[i * size + i] ?? 0) + precision;
      logLikelihood += Math.log(precision) / 2;
    });
    const { inverse, logDeterminant } = invert(both);
    const estimate = times(inverse, shop.moments);
    logLikelihood += (dot(estimate, shop.moments) - logDeterminant) / 2;
    for (let i = 0; i < size; i++) {
      const precision = ownPrecision[i] ?? 0;
      moments[i] = (moments[i] ?? 0) + precision * (estimate[i] ?? 0);
      for (let j = 0; j < size; j++) {
        const kept = (i === j ? precision : 0) - precision * (inverse.values[i * size + j] ?? 0) * (ownPrecision[j] ?? 0); // prettier-ignore
        information.values[i * size + j] = (information.values[i * size + j] ?? 0) + kept;
      }
    }
  }
  const { inverse: covariance, logDeterminant } = invert(information);
  const means = times(covariance, moments);
  logLikelihood += (dot(means, moments) - logDeterminant) / 2;
  return { means, covariance, logLikelihood };
}

/** The rows and columns at these indices. */
function part({ size, values }: Square, indices: readonly number[]): Square {
  const made = zeros(indices.length);
  indices.forEach((i, a) =>
    indices.forEach((j, b) => (made.values[a * indices.length + b] = values[i * size + j] ?? 0)),
  );
  return made;
}

/** The matrix times the vector. */
export function times({ size, values }: Square, vector: readonly number[]): number[] {
  return vector.map((_, i) => vector.reduce((sum, value, j) => sum + (values[i * size + j] ?? 0) * value, 0));
}

/** The sum of the products. */
export function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, i) => sum + value * (other[i] ?? 0), 0);
}

/** Mean and covariance of a mixture of guesses, by their weights: the variance between them counts. */
export function averageGuess(
  guesses: readonly Pick<ShopGuess, 'means' | 'covariance'>[],
  weights: readonly number[],
): { means: number[]; covariance: Square } {
  const size = guesses[0]?.means.length ?? 0;
  const means = Array.from({ length: size }, (_, i) =>
    guesses.reduce((sum, guess, k) => sum + (weights[k] ?? 0) * (guess.means[i] ?? 0), 0),
  );
  const covariance = zeros(size);
  guesses.forEach((guess, k) => {
    const off = guess.means.map((mean, i) => mean - (means[i] ?? 0));
    for (let i = 0; i < size; i++)
      for (let j = 0; j < size; j++)
        covariance.values[i * size + j] =
          (covariance.values[i * size + j] ?? 0) +
          (weights[k] ?? 0) * ((guess.covariance.values[i * size + j] ?? 0) + (off[i] ?? 0) * (off[j] ?? 0));
  });
  return { means, covariance };
}

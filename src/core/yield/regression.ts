/** Bayesian linear regression with a conjugate normal-inverse-gamma prior, from sums alone. */
import { inverseOf, zeros, type Square } from '../stats/positive-definite.ts';
import type { Column } from './columns.ts';

/** Sufficient statistics of the animals of one kind, in standard units (0 = the prior's location, 1 = its scale). */
export interface GroupStatistics {
  /** Indices of the columns that apply to this kind. */
  readonly columnIndices: readonly number[];
  readonly species: string;
  readonly n: number;
  readonly sum: number;
  readonly squares: number;
}

export interface Posterior {
  /** Posterior means of the effects. */
  readonly effects: readonly number[];
  /** Their covariance over the residual variance. */
  readonly covariance: Square;
  /** Residual variance over all species, and its degrees of freedom. */
  readonly variance: number;
  readonly degrees: number;
}

/**
 * Degrees of freedom of the variance's prior (our choice). The prior standard deviation is 1 in standard units: that of a
 * Student's t whose squared scale is (degrees - 2) / degrees.
 */
export const PRIOR_DEGREES = 10;

/** All that the regression needs of the animals: X'X, X'z, z'z and their number. */
export interface CrossProducts {
  readonly gram: Square;
  readonly moments: readonly number[];
  readonly squares: number;
  readonly n: number;
}

/** Accumulates the cross products for `size` columns. */
export function crossProductsOf(size: number, groups: readonly GroupStatistics[]): CrossProducts {
  const gram = zeros(size);
  const moments = new Array<number>(size).fill(0);
  let squares = 0;
  let n = 0;
  for (const group of groups) {
    n += group.n;
    squares += group.squares;
    for (const i of group.columnIndices) {
      moments[i] = (moments[i] ?? 0) + group.sum;
      for (const j of group.columnIndices)
        gram.values[i * size + j] = (gram.values[i * size + j] ?? 0) + group.n;
    }
  }
  return { gram, moments, squares, n };
}

/**
 * The conjugate normal-inverse-gamma posterior: with effects b | s2 ~ N(m0, s2 V0) and s2 ~ IG(a0, b0), and
 * standard shares z = Xb + e, e ~ N(0, s2):
 *
 *     A = V0^-1 + X'X    m = A^-1 (V0^-1 m0 + X'z)    a = a0 + n/2    b = b0 + (m0'V0^-1 m0 + z'z - m'Am) / 2
 *
 * (Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 14; from memory.) `variance` is b/a, `degrees` 2a.
 */
export function posteriorOf(columns: readonly Column[], products: CrossProducts): Posterior {
  const size = columns.length;
  const information = { size, values: products.gram.values.slice() };
  const rhs = products.moments.slice();
  let { squares } = products;
  for (const [i, { priorMean, variance }] of columns.entries()) {
    information.values[i * size + i] = (information.values[i * size + i] ?? 0) + 1 / variance;
    rhs[i] = (rhs[i] ?? 0) + priorMean / variance;
    squares += (priorMean * priorMean) / variance;
  }
  // The prior's diagonal keeps the matrix positive definite.
  const covariance = inverseOf(information);
  const effects = columns.map((_, i) =>
    rhs.reduce((total, value, j) => total + (covariance.values[i * size + j] ?? 0) * value, 0),
  );
  const explained = effects.reduce((total, effect, i) => total + effect * (rhs[i] ?? 0), 0);
  const degrees = PRIOR_DEGREES + products.n;
  return { effects, covariance, variance: (PRIOR_DEGREES - 2 + squares - explained) / degrees, degrees };
}

/** Posterior mean of this kind's mean, and its variance over the residual variance. */
export function meanAt(
  { effects, covariance }: Pick<Posterior, 'effects' | 'covariance'>,
  columnIndices: readonly number[],
): { location: number; variance: number } {
  const location = columnIndices.reduce((total, i) => total + (effects[i] ?? 0), 0);
  return { location, variance: sumAt(covariance, columnIndices) };
}

/** The sum over the rows and columns at these indices: the variance of the sum of these effects. */
export function sumAt({ size, values }: Square, columnIndices: readonly number[]): number {
  let total = 0;
  for (const i of columnIndices) for (const j of columnIndices) total += values[i * size + j] ?? 0;
  return total;
}

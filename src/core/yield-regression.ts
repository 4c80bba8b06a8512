/** Bayesian linear regression with a conjugate normal-inverse-gamma prior, from sums alone. */
import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { Column } from './yield-columns.ts';

/** The animals of one kind, in standard measure (0 = the prior's middle, 1 = one prior spread). */
export interface Heap {
  /** Places of the columns that speak for this kind. */
  readonly places: readonly number[];
  readonly species: string;
  readonly n: number;
  readonly sum: number;
  readonly squares: number;
}

export interface Posterior {
  /** Posterior means of the effects. */
  readonly effects: readonly number[];
  /** Their covariance over the residual variance. */
  readonly covariance: Matrix;
  /** Residual variance over all species, and the degrees of freedom it is known with. */
  readonly variance: number;
  readonly degrees: number;
}

/**
 * The prior spread counts as much as this many degrees of freedom (our choice); it is 1 in standard measure, the
 * standard deviation of a Student's t whose squared scale is (degrees - 2) / degrees.
 */
const SPREAD_DEGREES = 10;

/**
 * The conjugate normal-inverse-gamma posterior: with effects b | s2 ~ N(m0, s2 V0) and s2 ~ IG(a0, b0), and
 * standard shares z = Xb + e, e ~ N(0, s2):
 *
 *     A = V0^-1 + X'X    m = A^-1 (V0^-1 m0 + X'z)    a = a0 + n/2    b = b0 + (m0'V0^-1 m0 + z'z - m'Am) / 2
 *
 * (Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 14; from memory.) Only counts, sums and sums of squares of
 * each kind of animal enter. `variance` is b/a, `degrees` 2a.
 */
export function posteriorOf(columns: readonly Column[], heaps: readonly Heap[]): Posterior {
  const size = columns.length;
  const information = Matrix.zeros(size, size);
  const pull = Matrix.zeros(size, 1);
  let squares = 0;
  let n = 0;
  for (const [i, { middle, variance }] of columns.entries()) {
    information.set(i, i, 1 / variance);
    pull.set(i, 0, middle / variance);
    squares += (middle * middle) / variance;
  }
  for (const heap of heaps) {
    n += heap.n;
    squares += heap.squares;
    for (const i of heap.places) {
      pull.set(i, 0, pull.get(i, 0) + heap.sum);
      for (const j of heap.places) information.set(i, j, information.get(i, j) + heap.n);
    }
  }
  // The prior's diagonal keeps the matrix positive definite whatever was weighed.
  const covariance = new CholeskyDecomposition(information).solve(Matrix.eye(size));
  const effects = covariance.mmul(pull).to1DArray();
  const explained = effects.reduce((total, effect, i) => total + effect * pull.get(i, 0), 0);
  const degrees = SPREAD_DEGREES + n;
  return { effects, covariance, variance: (SPREAD_DEGREES - 2 + squares - explained) / degrees, degrees };
}

/** Posterior mean, and variance over the residual variance, of the mean of animals of this kind. */
export function meanAt(
  { effects, covariance }: Pick<Posterior, 'effects' | 'covariance'>,
  places: readonly number[],
): { middle: number; variance: number } {
  let middle = 0;
  let variance = 0;
  for (const i of places) {
    middle += effects[i] ?? 0;
    for (const j of places) variance += covariance.get(i, j);
  }
  return { middle, variance };
}

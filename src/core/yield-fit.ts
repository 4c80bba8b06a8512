/** Fits one split: Bayesian linear regression on the effects of `yield-columns.ts`, exact and closed. */
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

/** What was learned of one split; feed it to `foretell`. */
export interface Fit {
  /** Posterior middles of the effects. */
  readonly effects: readonly number[];
  /** Their covariance over the squared spread. */
  readonly covariance: Matrix;
  /** Squared animal-to-animal spread over all species, and the degrees of freedom it is known with. */
  readonly variance: number;
  readonly degrees: number;
  /** The same for each species with animals of its own, drawn towards the common one. */
  readonly bySpecies: ReadonlyMap<string, { readonly variance: number; readonly degrees: number }>;
}

/**
 * The prior spread counts as much as this many degrees of freedom (our choice); it is 1 in standard measure, the
 * standard deviation of a Student's t whose squared scale is (degrees - 2) / degrees.
 */
const SPREAD_DEGREES = 10;
/** A species' own spread starts at the common one, which counts as this many of its animals. Our choice. */
const COMMON_SPREAD_ANIMALS = 20;

/**
 * The conjugate normal-inverse-gamma posterior: with effects b | s2 ~ N(m0, s2 V0) and s2 ~ IG(a0, b0), and
 * standard shares z = Xb + e, e ~ N(0, s2):
 *
 *     A = V0^-1 + X'X    m = A^-1 (V0^-1 m0 + X'z)    a = a0 + n/2    b = b0 + (m0'V0^-1 m0 + z'z - m'Am) / 2
 *
 * (Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 14; from memory.) Only counts, sums and sums of squares of
 * each kind of animal enter. `variance` is b/a, `degrees` 2a. Afterwards each species gets a spread of its own:
 * its expected squared residuals, drawn towards the common variance.
 */
export function fitSplit(columns: readonly Column[], heaps: readonly Heap[]): Fit {
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
  const variance = (SPREAD_DEGREES - 2 + squares - explained) / degrees;
  const fit = { effects, covariance, variance, degrees };
  return { ...fit, bySpecies: spreadsOf(fit, heaps) };
}

/** Middle and variance (over the squared spread) of the mean of animals of this kind. */
export function meanAt(
  fit: Pick<Fit, 'effects' | 'covariance'>,
  places: readonly number[],
): { middle: number; variance: number } {
  let middle = 0;
  let variance = 0;
  for (const i of places) {
    middle += fit.effects[i] ?? 0;
    for (const j of places) variance += fit.covariance.get(i, j);
  }
  return { middle, variance };
}

/**
 * The predictive distribution of one more animal of this kind, in standard measure: Student's t.
 * With no animals weighed it is the prior itself.
 */
export function foretell(
  fit: Fit,
  species: string,
  places: readonly number[],
): { middle: number; scale: number; degrees: number } {
  const mean = meanAt(fit, places);
  const own = fit.bySpecies.get(species) ?? fit;
  return {
    middle: mean.middle,
    scale: Math.sqrt(own.variance + fit.variance * mean.variance),
    degrees: Math.min(own.degrees, fit.degrees),
  };
}

function spreadsOf(fit: Omit<Fit, 'bySpecies'>, heaps: readonly Heap[]): Fit['bySpecies'] {
  const residuals = new Map<string, { squares: number; n: number }>();
  for (const { places, species, n, sum, squares } of heaps) {
    const { middle, variance } = meanAt(fit, places);
    const total = residuals.get(species) ?? { squares: 0, n: 0 };
    // The second term is what the fitted mean took out of the residuals.
    total.squares += squares - 2 * middle * sum + n * middle * middle + n * variance * fit.variance;
    total.n += n;
    residuals.set(species, total);
  }
  const spreads = new Map<string, { variance: number; degrees: number }>();
  for (const [species, { squares, n }] of residuals) {
    const degrees = COMMON_SPREAD_ANIMALS + n;
    spreads.set(species, { variance: (COMMON_SPREAD_ANIMALS * fit.variance + squares) / degrees, degrees });
  }
  return spreads;
}

/** The joint fat of several sources: their means and covariances. */
import { covarianceOf } from './fat.ts';
import type { CorrelatedFatEstimate, FatEstimate } from './estimates.ts';
import { ValidationError } from '../values/validation-error.ts';

/**
 * One source's fat as a linear predictor: offset + loading × the estimate `on` + independent terms. A term of the same
 * name in two sources is the same unknown, e.g. the mean of a kind without a test yet.
 */
export interface FatPredictor {
  readonly offset: number;
  /** Id of an estimate; absent where the source depends on none. */
  readonly on?: { readonly id: string; readonly loading: number };
  /** Variance of each term by its name, in fractions². */
  readonly terms: Readonly<Record<string, number>>;
}

/** A weighted source: its share of a batch, or grams of fat needed per unit of its fat. */
export interface Weighted {
  readonly of: FatPredictor;
  readonly weight: number;
}

export interface JointFat {
  has(id: string): boolean;
  estimate(source: FatPredictor): FatEstimate;
  covariance(one: FatPredictor, other: FatPredictor): number;
  /**
   * The SD of a weighted sum of sources' fat, √(wᵀΣw). Shared variance does not average out; only the sources' own does:
   * ten animals in equal parts, of a kind whose mean has SD 3 % and whose animals have SD 2 %, give √(0.0009 + 0.0004 / 10).
   */
  sdOfSum(parts: readonly Weighted[]): number;
}

/**
 * Means and covariances of a joint normal distribution; the covariance is a packed lower triangle, row by row.
 * @throws ValidationError `fat.unknown-source` for an estimate that it does not contain
 */
export function jointFat(estimates: readonly CorrelatedFatEstimate[]): JointFat {
  const indexById = new Map(estimates.map(({ id }, i) => [id, i]));
  const means = Float64Array.from(estimates, ({ mean }) => mean);
  const packed = new Float64Array((estimates.length * (estimates.length + 1)) / 2);
  for (let i = 0; i < estimates.length; i++)
    for (let j = 0; j <= i; j++) packed[cell(i, j)] = covarianceOf(estimates, i, j);

  const indexOf = (id: string): number => {
    const at = indexById.get(id);
    if (at === undefined) throw new ValidationError('fat.unknown-source', 'on', { id });
    return at;
  };
  const covariance = (one: FatPredictor, other: FatPredictor): number => {
    let sum = 0;
    if (one.on && other.on)
      sum =
        one.on.loading *
        other.on.loading *
        (packed[cell(indexOf(one.on.id), indexOf(other.on.id))] as number);
    for (const [name, variance] of Object.entries(one.terms)) if (name in other.terms) sum += variance;
    return sum;
  };
  const sdOfSum = (parts: readonly Weighted[]): number => {
    const estimateWeights = new Map<number, number>();
    const termWeights = new Map<string, { weight: number; variance: number }>();
    for (const { of, weight } of parts) {
      if (of.on) {
        const at = indexOf(of.on.id);
        estimateWeights.set(at, (estimateWeights.get(at) ?? 0) + weight * of.on.loading);
      }
      for (const [name, variance] of Object.entries(of.terms))
        termWeights.set(name, { weight: (termWeights.get(name)?.weight ?? 0) + weight, variance });
    }
    let sum = 0;
    for (const [i, one] of estimateWeights)
      for (const [j, other] of estimateWeights) sum += one * other * (packed[cell(i, j)] as number);
    for (const { weight, variance } of termWeights.values()) sum += weight * weight * variance;
    return Math.sqrt(Math.max(0, sum));
  };
  return {
    has: (id) => indexById.has(id),
    estimate(source) {
      const { offset, on } = source;
      const mean = offset + (on ? on.loading * (means[indexOf(on.id)] as number) : 0);
      return { mean, sd: sdOfSum([{ of: source, weight: 1 }]) };
    },
    covariance,
    sdOfSum,
  };
}

/** The position of the covariance of i and j in the packed triangle. */
function cell(i: number, j: number): number {
  return i >= j ? (i * (i + 1)) / 2 + j : (j * (j + 1)) / 2 + i;
}

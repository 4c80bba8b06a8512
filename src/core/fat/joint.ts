/** The fat of several sources together: their means, and the part of their spread that they share. */
import { covarianceOf } from './fat.ts';
import type { CorrelatedFatEstimate, FatEstimate } from './estimates.ts';
import { ValidationError } from '../values/validation-error.ts';

/**
 * One source's fat as a linear predictor: offset + loading × the belief `on` + independent terms. A term of the same
 * name in two sources is the same unknown, e.g. the mean of a kind that no test spoke of yet.
 */
export interface FatPredictor {
  readonly offset: number;
  /** A belief's id; none where the source hangs on none. */
  readonly on?: { readonly id: string; readonly loading: number };
  /** Variance of each term by its name, in fractions². */
  readonly terms: Readonly<Record<string, number>>;
}

/** So much of one source: its share of a batch, or grams of fat needed for each unit of its fat. */
export interface Weighted {
  readonly of: FatPredictor;
  readonly weight: number;
}

export interface JointFat {
  has(id: string): boolean;
  estimate(source: FatPredictor): FatEstimate;
  covariance(one: FatPredictor, other: FatPredictor): number;
  /**
   * The SD of a weighted sum of sources' fat, √(wᵀΣw). What sources share does not average out as they grow in number;
   * only their own parts do: ten animals in equal parts of a kind whose mean is 3 % sure, each 2 % from it, come out at
   * √(0.0009 + 0.0004 / 10).
   */
  sdOfSum(parts: readonly Weighted[]): number;
}

/**
 * Means and covariances of a normal joint belief, packed: the lower triangle row by row, 8 bytes an entry.
 * @throws ValidationError `fat.unknown-source` when asked for a belief that is not among them
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

/** Where the covariance of the i-th and the j-th belief lies in a packed triangle. */
function cell(i: number, j: number): number {
  return i >= j ? (i * (i + 1)) / 2 + j : (j * (j + 1)) / 2 + i;
}

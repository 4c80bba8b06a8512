import { tQuantile } from './distributions.ts';
import { ValidationError } from '../values/validation-error.ts';

/** A straight line fitted to points; y in the unit of ys, x in the unit of xs. */
export interface Line {
  intercept: number;
  slope: number;
  /** Standard errors of the two. */
  interceptSe: number;
  slopeSe: number;
  /** Standard deviation of the points about the line, with n - 2 degrees of freedom. */
  residualSd: number;
  /** Share of the scatter of ys that the line explains, 0 to 1; 1 where all ys are equal. */
  rSquared: number;
  /**
   * What one further point at `x` may be: the line there, and the range that holds the new point with
   * probability `level` (0 < level < 1) if the scatter about the line is normal and even.
   */
  predict(x: number, level: number): { mean: number; low: number; high: number };
}

const FEWEST = 3;

/**
 * Least squares of y = intercept + slope·x. Both sides are centred on their means before any product is formed,
 * and the residuals are summed themselves rather than taken as a difference of large sums, so that far-off,
 * close-lying xs keep their digits. Source: Montgomery, Peck & Vining, Introduction to Linear Regression
 * Analysis, chapter 2; the range of a new point is eq. 2.45: ± t·s·√(1 + 1/n + (x - x̄)²/Sxx).
 * @throws ValidationError `fit.lengths-differ`, `fit.too-few`, `fit.x-all-equal`, `number.not-finite`,
 *   `number.too-large`; `predict` throws `number.not-finite` and `share.out-of-range`
 * @example fitLine([1, 2, 3, 4], [2, 4, 6, 9]) // intercept -0.5, slope 2.3
 */
export function fitLine(xs: readonly number[], ys: readonly number[]): Line {
  const n = xs.length;
  if (ys.length !== n) throw new ValidationError('fit.lengths-differ', 'ys', { xs: n, ys: ys.length });
  if (n < FEWEST) throw new ValidationError('fit.too-few', 'xs', { n, fewest: FEWEST });
  const x = centred(xs, 'xs');
  const y = centred(ys, 'ys');
  const sxx = product(x.offsets, x.offsets);
  const syy = product(y.offsets, y.offsets);
  if (!Number.isFinite(sxx) || !Number.isFinite(syy)) throw new ValidationError('number.too-large');
  // Xs that differ only by the rounding of their last bit carry no direction.
  const rounding = 4 * Number.EPSILON * largest(xs);
  if (sxx <= n * rounding ** 2) throw new ValidationError('fit.x-all-equal', 'xs');

  const slope = product(x.offsets, y.offsets) / sxx;
  const intercept = y.mean - slope * x.mean;
  const residuals = x.offsets.map((offset, i) => (y.offsets[i] as number) - slope * offset);
  const left = product(residuals, residuals);
  const residualSd = Math.sqrt(left / (n - 2));
  return {
    intercept,
    slope,
    interceptSe: residualSd * Math.sqrt(1 / n + x.mean ** 2 / sxx),
    slopeSe: residualSd / Math.sqrt(sxx),
    residualSd,
    rSquared: syy === 0 ? 1 : Math.max(0, 1 - left / syy),
    predict(at, level) {
      if (!Number.isFinite(at)) throw new ValidationError('number.not-finite', 'x');
      if (!(level > 0 && level < 1)) throw new ValidationError('share.out-of-range', 'level');
      const mean = y.mean + slope * (at - x.mean);
      const t = tQuantile((1 + level) / 2, n - 2);
      const half = t * residualSd * Math.sqrt(1 + 1 / n + (at - x.mean) ** 2 / sxx);
      if (!Number.isFinite(mean + half)) throw new ValidationError('number.too-large', 'x');
      return { mean, low: mean - half, high: mean + half };
    },
  };
}

/** Mean and offsets from it; the mean is refined once by the mean of its own offsets. */
function centred(values: readonly number[], field: string): { mean: number; offsets: number[] } {
  values.forEach((value, i) => {
    if (!Number.isFinite(value)) throw new ValidationError('number.not-finite', `${field}[${i}]`);
  });
  const rough = sum(values) / values.length;
  const mean = rough + sum(values.map((value) => value - rough)) / values.length;
  if (!Number.isFinite(mean)) throw new ValidationError('number.too-large', field);
  return { mean, offsets: values.map((value) => value - mean) };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

function product(a: readonly number[], b: readonly number[]): number {
  return a.reduce((total, value, i) => total + value * (b[i] as number), 0);
}

/** Largest size; a loop, since a long season does not fit into the arguments of `Math.max`. */
function largest(values: readonly number[]): number {
  return values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}

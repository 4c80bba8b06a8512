/**
 * The probability functions that the core needs, typed, with one rule for bad input. Implementation: the stdlib
 * project (stdlib.io), incomplete gamma and beta functions after Boost and Cephes.
 */
import chiSquareCdfRaw from '@stdlib/stats-base-dists-chisquare-cdf';
import normalQuantileRaw from '@stdlib/stats-base-dists-normal-quantile';
import tQuantileRaw from '@stdlib/stats-base-dists-t-quantile';
import { requireFinite, ValidationError } from '../values/validation-error.ts';

/**
 * The z below which a share `p` of the standard normal distribution lies, 0 < p < 1.
 * @throws ValidationError `share.out-of-range`
 * @example normalQuantile(0.975) // 1.9599639845400538
 */
export function normalQuantile(p: number): number {
  return normalQuantileRaw(share(p), 0, 1);
}

/**
 * The share of the standard normal distribution below `z`. The square of a standard normal is chi-square with
 * one degree of freedom, so P(|Z| > |z|) = 1 - chiSquareCdf(z², 1); half of that lies in each tail. Absolute
 * error about 1e-16: in the far tail (z < -5) use it for ranking, not for ratios.
 * @throws ValidationError `number.not-finite`
 * @example normalCdf(1.96) // 0.9750021048517796
 */
export function normalCdf(z: number): number {
  const inside = chiSquareCdfRaw(requireFinite(z, 'z') ** 2, 1);
  return z < 0 ? (1 - inside) / 2 : (1 + inside) / 2;
}

/**
 * The t below which a share `p` of Student's distribution with `df` degrees of freedom (> 0) lies.
 * @throws ValidationError `share.out-of-range`, `degrees.not-positive`
 * @example tQuantile(0.975, 10) // 2.2281388519862744
 */
export function tQuantile(p: number, df: number): number {
  return tQuantileRaw(share(p), degrees(df));
}

function share(p: number): number {
  if (!(p > 0 && p < 1)) throw new ValidationError('share.out-of-range', 'p');
  return p;
}

function degrees(df: number): number {
  if (!(df > 0 && df < Infinity)) throw new ValidationError('degrees.not-positive', 'df');
  return df;
}

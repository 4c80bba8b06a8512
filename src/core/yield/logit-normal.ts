/** Moment matching for the logit-normal distribution. */
import { normalQuantile } from '../stats/distributions.ts';
import { ValidationError } from '../values/validation-error.ts';
import { logit, inverseLogit } from './tree.ts';

/** Midpoints of 64 intervals of equal probability of a standard normal. */
const NORMAL_QUANTILES = Array.from({ length: 64 }, (_, i) => normalQuantile((i + 0.5) / 64));
const MAX_ITERATIONS = 100;
const MAX_STEP = 0.5;
const RELATIVE_TOLERANCE = 1e-4;

/**
 * Location and scale of y ~ N(location, scale²) such that `inverseLogit(y)` has this mean and standard deviation.
 * With location = logit(mean) small skewed shares, such as saved fat, would be overstated by half and more. Method:
 * a fixed-point iteration. It shifts the location by the error of the mean over the slope and multiplies the scale
 * by the root of the wanted over the actual deviation, until both are within a relative error of 10⁻⁴.
 * @throws ValidationError `yield.prior-spread` where no logit-normal is that wide, e.g. mean 0.01 with deviation
 *   0.2
 * @example logitNormalFromMoments(0.59, 0.05) // { location: 0.37, scale: 0.21 }
 */
export function logitNormalFromMoments(mean: number, sd: number): { location: number; scale: number } {
  let location = logit(mean);
  let scale = sd / (mean * (1 - mean));
  for (let step = 0; step < MAX_ITERATIONS; step++) {
    const found = momentsOf(location, scale);
    if (
      Math.abs(found.mean - mean) < RELATIVE_TOLERANCE * mean &&
      Math.abs(found.sd - sd) < RELATIVE_TOLERANCE * sd
    )
      return { location, scale };
    // Steps are limited: near 0 and 1 the two moments interact.
    const shift = (mean - found.mean) / Math.max(found.slope, RELATIVE_TOLERANCE);
    location += Math.min(MAX_STEP, Math.max(-MAX_STEP, shift));
    scale *= Math.sqrt(Math.min(2, Math.max(0.5, sd / found.sd)));
  }
  throw new ValidationError('yield.prior-spread', 'sd', { mean, sd });
}

function momentsOf(location: number, scale: number): { mean: number; sd: number; slope: number } {
  let [sum, squares, slope] = [0, 0, 0];
  for (const z of NORMAL_QUANTILES) {
    const share = inverseLogit(location + scale * z);
    sum += share;
    squares += share * share;
    slope += share * (1 - share);
  }
  const n = NORMAL_QUANTILES.length;
  const mean = sum / n;
  return { mean, sd: Math.sqrt(Math.max(0, squares / n - mean * mean)), slope: slope / n };
}

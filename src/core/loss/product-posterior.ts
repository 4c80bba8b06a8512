/**
 * One product: its mean yield and its spread from batch to batch, both unknown, on the logit scale. The mean is integrated exactly for each
 * spread of a grid; the next batch is a mixture of normals over the grid (Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.3,
 * from memory).
 */
import { normalCdf, normalQuantile } from '../stats/distributions.ts';
import { mixtureWeights } from '../stats/mixture.ts';
import type { RandomGenerator } from '../stats/random.ts';
import type { KindPrior } from './kind.ts';

/** The next batch on the logit scale. */
export interface Mixture {
  readonly weights: readonly number[];
  readonly means: readonly number[];
  readonly sds: readonly number[];
}

const POINTS = 33;
const REACH = 2.5;
/** A component of less weight moves no quantile. */
const NEGLIGIBLE = 1e-7;

/**
 * @param ys yields of past batches, logit
 * @param mean its prior mean with its variance, as the shop's other products leave it
 * @param spread the expected spread from batch to batch, and the SD of the logarithm of the product's own over it
 */
export function nextBatch(
  ys: readonly number[],
  mean: { at: number; variance: number },
  { batchSd, logSd }: Pick<KindPrior, 'batchSd' | 'logSd'>,
): Mixture {
  const n = ys.length;
  const average = n === 0 ? 0 : ys.reduce((sum, y) => sum + y, 0) / n;
  const squares = ys.reduce((sum, y) => sum + (y - average) ** 2, 0);
  const components = Array.from({ length: POINTS }, (_, i) => {
    const log = logSd * REACH * ((2 * i) / (POINTS - 1) - 1);
    const own = (batchSd * Math.exp(log)) ** 2;
    const marginal = own + n * mean.variance;
    const prior = -0.5 * (log / logSd) ** 2;
    const likelihood =
      n === 0
        ? 0
        : -0.5 *
          ((n - 1) * Math.log(own) +
            Math.log(marginal) +
            squares / own +
            (n * (average - mean.at) ** 2) / marginal);
    const precision = 1 / mean.variance + n / own;
    return {
      log: prior + likelihood,
      mean: (mean.at / mean.variance + (n * average) / own) / precision,
      sd: Math.sqrt(1 / precision + own),
    };
  });
  const weights = mixtureWeights(components.map(({ log }) => log));
  const kept = components.flatMap(({ mean: at, sd }, i) => {
    const weight = weights[i] ?? 0;
    return weight > NEGLIGIBLE ? [{ weight, at, sd }] : [];
  });
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  return {
    weights: kept.map(({ weight }) => weight / total),
    means: kept.map(({ at }) => at),
    sds: kept.map(({ sd }) => sd),
  };
}

/** The probability that the next batch lies below `y`. */
export function mixtureCdf({ weights, means, sds }: Mixture, y: number): number {
  return weights.reduce(
    (sum, weight, i) => sum + weight * normalCdf((y - (means[i] ?? 0)) / (sds[i] ?? 1)),
    0,
  );
}

/**
 * Batches drawn at random, one from each of `count` equal strata of the mixture, in random order: an end of a range over them is then off by
 * far less than over independent draws, whose error a fixed seed repeats in every range (Latin hypercube sampling: McKay, Beckman & Conover,
 * Technometrics 21:239, 1979; from memory).
 */
export function drawBatches(mixture: Mixture, count: number, random: RandomGenerator): number[] {
  const drawn = Array.from({ length: count }, (_, i) => drawAt(mixture, (i + random.uniform()) / count));
  // Fisher and Yates's shuffle.
  for (let i = count - 1; i > 0; i--) {
    const other = Math.floor(random.uniform() * (i + 1));
    [drawn[i], drawn[other]] = [drawn[other] ?? 0, drawn[i] ?? 0];
  }
  return drawn;
}

/** The batch that a uniform number picks: its component by the weights, its place within that by what is left of the number. */
function drawAt({ weights, means, sds }: Mixture, uniform: number): number {
  let left = uniform;
  let at = 0;
  // Rounding may leave the weights a hair short of 1.
  while (at < weights.length - 1 && left >= (weights[at] ?? 0)) left -= weights[at++] ?? 0;
  const within = Math.min(1 - Number.EPSILON, Math.max(Number.EPSILON, left / (weights[at] ?? 1)));
  return (means[at] ?? 0) + (sds[at] ?? 0) * normalQuantile(within);
}

const MAX_STEPS = 100;
const TOLERANCE = 1e-9;
/** Beyond it no logit of a yield lies that is to be told from 0 or 1. */
const FARTHEST = 30;

/** The y below which the next batch lies with this probability: Newton's steps, halving where one leaves the bracket. */
export function mixtureQuantile(mixture: Mixture, p: number): number {
  let [low, high] = [-FARTHEST, FARTHEST];
  const middle = mixture.weights.reduce((sum, weight, i) => sum + weight * (mixture.means[i] ?? 0), 0);
  let y = Math.min(high, Math.max(low, middle));
  for (let i = 0; i < MAX_STEPS && high - low > TOLERANCE; i++) {
    const off = mixtureCdf(mixture, y) - p;
    if (off < 0) low = y;
    else high = y;
    const newton = y - off / mixtureDensity(mixture, y);
    const next = newton > low && newton < high ? newton : (low + high) / 2;
    if (Math.abs(next - y) < TOLERANCE) return next;
    y = next;
  }
  return y;
}

function mixtureDensity({ weights, means, sds }: Mixture, y: number): number {
  return (
    weights.reduce((sum, weight, i) => {
      const sd = sds[i] ?? 1;
      return sum + (weight / sd) * Math.exp(-0.5 * ((y - (means[i] ?? 0)) / sd) ** 2);
    }, 0) / Math.sqrt(2 * Math.PI)
  );
}

/** Probability mass functions of counts: entry k is the probability of k. */
import { cyclicConvolution, spectrumOf, transformSize, type Spectrum } from '../stats/fourier.ts';
import { ValidationError } from '../values/validation-error.ts';

export type Pmf = readonly number[];

/** Probabilities below this are dropped. */
const NEGLIGIBLE_PROBABILITY = 1e-10;

/**
 * The count distribution with this mean and variance `dispersion` × mean: negative binomial with r = mean /
 * (dispersion − 1) and p = 1 / dispersion; Poisson at dispersion 1. Both follow from the ratio of successive terms.
 * @param dispersion 1 or more
 * @throws ValidationError `amount.negative`, `spread.below-one`
 * @example countPmf(0.5, 1)[0] // 0.6065306597 = e^-0.5
 */
export function countPmf(mean: number, dispersion: number): Pmf {
  if (!(mean >= 0 && Number.isFinite(mean))) throw new ValidationError('amount.negative', 'mean');
  if (!(dispersion >= 1 && Number.isFinite(dispersion)))
    throw new ValidationError('spread.below-one', 'dispersion');
  if (mean === 0) return [1];
  const r = mean / (dispersion - 1);
  const ratio = (k: number): number =>
    dispersion === 1 ? mean / (k + 1) : ((k + r) / (k + 1)) * (1 - 1 / dispersion);
  // In logarithms: the probability of 0 may underflow.
  const logs = [dispersion === 1 ? -mean : -r * Math.log(dispersion)];
  for (let k = 0; k < mean || (logs[k] as number) > Math.log(NEGLIGIBLE_PROBABILITY); k++)
    logs.push((logs[k] as number) + Math.log(ratio(k)));
  return normalise(logs.map(Math.exp));
}

/** The distribution of the sum of two independent counts. */
export function convolve(a: Pmf, b: Pmf): Pmf {
  const sums = new Array<number>(a.length + b.length - 1).fill(0);
  const [leastA, leastB] = [firstNonNegligible(a), firstNonNegligible(b)];
  const size = transformSize(sums.length - leastA - leastB);
  if (isFasterTransformed(a.length - leastA, b.length - leastB, size)) {
    const all = cyclicConvolution(spectrumOf(a, size, leastA), kernelOf(b, leastB, size));
    for (let k = leastA + leastB; k < sums.length; k++)
      sums[k] = Math.max(0, all[k - leastA - leastB] as number);
    return trimTail(sums);
  }
  for (let i = leastA; i < a.length; i++) {
    const probability = a[i] as number;
    if (probability > NEGLIGIBLE_PROBABILITY)
      for (let k = leastB; k < b.length; k++) sums[i + k]! += probability * (b[k] as number);
  }
  return trimTail(sums);
}

/** The distribution of max(0, from − away) for two independent counts. */
export function truncatedDifference(from: Pmf, away: Pmf): Pmf {
  const differences = new Array<number>(from.length).fill(0);
  const [leastFrom, leastAway] = [firstNonNegligible(from), firstNonNegligible(away)];
  // Every `away` of at least `from` leaves 0: their probabilities are summed beforehand.
  const upperTail = [...away, 0];
  for (let k = away.length - 1; k >= 0; k--) upperTail[k]! += upperTail[k + 1] as number;
  const rows = from.length - leastFrom;
  const columns = away.length - leastAway;
  const size = transformSize(rows + columns - 1);
  const transformed = isFasterTransformed(rows, columns, size);
  if (transformed) {
    const all = cyclicConvolution(spectrumOf(from, size, leastFrom), kernelOf(away, leastAway, size), true);
    const shift = leastFrom - leastAway;
    // Entries before the first stand at the end of the cycle.
    for (let k = Math.max(1, shift - columns + 1); k < rows + shift; k++)
      differences[k] = Math.max(0, all[(k - shift + size) % size] as number);
  }
  for (let i = leastFrom; i < from.length; i++) {
    const probability = from[i] as number;
    if (probability <= NEGLIGIBLE_PROBABILITY) continue;
    const end = Math.min(i, away.length);
    if (!transformed)
      for (let k = leastAway; k < end; k++) differences[i - k]! += probability * (away[k] as number);
    differences[0]! += probability * (upperTail[end] as number);
  }
  return trimTail(differences);
}

/** Steps of the loop over all pairs that take as long as one step of two transforms. Measured. */
const STEPS_OF_TRANSFORM = 4;

function isFasterTransformed(rows: number, columns: number, size: number): boolean {
  return rows * columns > STEPS_OF_TRANSFORM * size * Math.log2(size);
}

/** The last transform of each distribution that others are combined with: the same cutting pace counts on every day. */
const kernels = new WeakMap<Pmf, Spectrum>();

function kernelOf(pmf: Pmf, from: number, size: number): Spectrum {
  let kernel = kernels.get(pmf);
  if (kernel?.size !== size) kernels.set(pmf, (kernel = spectrumOf(pmf, size, from)));
  return kernel;
}

/** The first count whose probability is not negligible. */
function firstNonNegligible(pmf: Pmf): number {
  return Math.max(
    0,
    pmf.findIndex((probability) => probability > NEGLIGIBLE_PROBABILITY),
  );
}

/** A mixture of distributions; the weights sum to 1. */
export function mixture(components: readonly { weight: number; pmf: Pmf }[]): Pmf {
  const all = new Array<number>(Math.max(...components.map(({ pmf }) => pmf.length))).fill(0);
  for (const { weight, pmf } of components)
    for (let k = 0; k < pmf.length; k++) all[k]! += weight * (pmf[k] as number);
  return all;
}

export function pmfMean(pmf: Pmf): number {
  return pmf.reduce((total, probability, k) => total + probability * k, 0);
}

/**
 * The quantile: the smallest count whose cumulative probability reaches `probability`. @example pmfQuantile([0.5,
 * 0.3, 0.2], 0.8) // 1
 */
export function pmfQuantile(pmf: Pmf, probability: number): number {
  let sum = 0;
  const found = pmf.findIndex((one) => (sum += one) >= probability - 1e-9);
  return found < 0 ? pmf.length - 1 : found;
}

function trimTail(pmf: number[]): Pmf {
  while (pmf.length > 1 && (pmf.at(-1) as number) < NEGLIGIBLE_PROBABILITY) pmf.pop();
  return normalise(pmf);
}

function normalise(pmf: number[]): Pmf {
  let sum = 0;
  for (const one of pmf) sum += one;
  for (let k = 0; k < pmf.length; k++) pmf[k]! /= sum;
  return pmf;
}

/**
 * How the sound parts (meat, fat, sinew, bone) divide what is left of an animal. Shares are positive and the small ones
 * skewed: a tenth of the usual sinew is far more unusual than the same grams of meat.
 */
import { Matrix } from 'ml-matrix';
import { SHARE_PARTS } from './part-shares.ts';
import { meanRest } from './lost-shares.ts';
import type { ShareModel } from './share-model.ts';
import { animalLog, DAMAGE_INDEX, maskedInverse, SOUND_COUNT as COUNT, SOUND_PARTS } from './sound-parts.ts';

/** Added to a share of the composition before its logarithm, so that a part stated as none has one. */
const OFFSET = 0.005;
const MEAT = SOUND_PARTS.indexOf('meat');
const ALL = (1 << COUNT) - 1;
const NONE = -1;
/** For every mask, the only part that is not in it; `NONE` if there is none or more than one. */
const LEFT = Int8Array.from({ length: ALL + 1 }, (_, mask) =>
  SOUND_PARTS.findIndex((_part, i) => mask === (ALL & ~(1 << i))),
);
/** SD of the share by which parts may outweigh their whole: rounding. */
const OVERWEIGHT_SD = 0.004;
/** Covariance over the product of the means below which two parts would hardly ever occur together. */
const LEAST_RELATIVE = -0.9;

/**
 * Returns the logarithm of the density of the weighed parts of a composition, relative to that of the mean composition.
 * `parts` are shares of their animal at the places in `mask`, and all four sum to `whole`. A single part that was not weighed
 * is what the others leave; more than one are integrated out.
 *
 * The parts are jointly log-normal with the mean and covariance of the model's shares: var ln x = ln(1 + var x / mean²),
 * cov (ln x, ln y) = ln(1 + cov / (mean x · mean y)). All four together count by their ratios to the meat, which do not
 * depend on the whole: Aitchison, The Statistical Analysis of Compositional Data, Chapman & Hall 1986, chapter 6 (from
 * memory). Tails: `animalLog`.
 */
export function compositionFit(
  model: ShareModel,
): (parts: Float64Array, mask: number, whole: number) => number {
  const rest = meanRest(model);
  const middle = Float64Array.from(SOUND_PARTS, (_, i) => (model.mean[i] ?? 0) / rest);
  const covariance = logCovariance(model, middle, rest);
  const ratios = ratiosToMeat(covariance);
  const logMean = middle.map((share, i) => Math.log(share + OFFSET) - covariance.get(i, i) / 2);
  const inverses = Array.from({ length: ALL + 1 }, (_, mask) =>
    mask === ALL ? maskedInverse(ratios, ALL & ~(1 << MEAT)) : maskedInverse(covariance, mask),
  );

  const deviations = new Float64Array(COUNT);
  /** Of the density of the shares, not of their logarithms. */
  function logDensity(shares: Float64Array, mask: number, whole: number): number {
    let jacobian = 0;
    let count = mask === ALL ? -1 : 0;
    deviations.fill(0);
    for (let i = 0; i < COUNT; i++) {
      if (!(mask & (1 << i))) continue;
      const log = Math.log((shares[i] ?? 0) / whole + OFFSET);
      jacobian -= log;
      count += 1;
      deviations[i] = log - (logMean[i] ?? 0);
    }
    if (mask === ALL) {
      const ofMeat = deviations[MEAT] ?? 0;
      for (let i = 0; i < COUNT; i++) deviations[i] = (deviations[i] ?? 0) - ofMeat;
    }
    // Zero outside the mask, and for the meat of the ratios.
    const weights = inverses[mask] ?? deviations;
    let squared = 0;
    for (let i = 0; i < COUNT; i++)
      for (let j = 0; j < COUNT; j++)
        squared += (weights[i * COUNT + j] ?? 0) * (deviations[i] ?? 0) * (deviations[j] ?? 0);
    return animalLog(squared, count, model.degrees) + jacobian;
  }
  const ofMeans = inverses.map((_, mask) => logDensity(middle, mask, 1));

  const shares = new Float64Array(COUNT);
  return (parts, weighed, whole) => {
    const left = LEFT[weighed] ?? NONE;
    if (left === NONE) return logDensity(parts, weighed, whole) - (ofMeans[weighed] ?? 0);
    let known = 0;
    for (let i = 0; i < COUNT; i++) {
      const share = i === left ? 0 : (parts[i] ?? 0);
      shares[i] = share;
      known += share;
    }
    const remainder = whole - known;
    shares[left] = Math.max(0, remainder);
    const over = Math.max(0, -remainder) / OVERWEIGHT_SD;
    return logDensity(shares, ALL, whole) - (ofMeans[ALL] ?? 0) - (over * over) / 2;
  };
}

/** Covariance of the logarithms of the sound parts as shares of their sum, whatever is lost. */
function logCovariance({ mean, covariance }: ShareModel, middle: Float64Array, rest: number): Matrix {
  // The linear map: part − mean composition × (sum of the sound parts).
  const map = Matrix.zeros(COUNT, SHARE_PARTS.length);
  for (let i = 0; i < COUNT; i++)
    for (let j = 0; j < SHARE_PARTS.length; j++)
      if (j !== DAMAGE_INDEX) map.set(i, j, (i === j ? 1 : 0) - (mean[i] ?? 0) / rest);
  const shares = map
    .mmul(covariance)
    .mmul(map.transpose())
    .div(rest ** 2);
  for (let i = 0; i < COUNT; i++)
    for (let j = 0; j < COUNT; j++) {
      const relative = shares.get(i, j) / (((middle[i] ?? 0) + OFFSET) * ((middle[j] ?? 0) + OFFSET));
      shares.set(i, j, Math.log1p(Math.max(LEAST_RELATIVE, relative)));
    }
  return shares;
}

/** Covariance of the logarithms of the parts' ratios to the meat; 0 in its own row and column. */
function ratiosToMeat(logs: Matrix): Matrix {
  const ratios = Matrix.zeros(COUNT, COUNT);
  for (let i = 0; i < COUNT; i++)
    for (let j = 0; j < COUNT; j++)
      ratios.set(i, j, logs.get(i, j) - logs.get(i, MEAT) - logs.get(MEAT, j) + logs.get(MEAT, MEAT));
  return ratios;
}

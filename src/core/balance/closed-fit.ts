/**
 * The likelihood of the parts of a finished animal. The loss (shrink, and unweighed damage) is skewed and
 * independent of the composition. The rest divides into meat, fat, sinew and bone about normally.
 */
import { Matrix } from 'ml-matrix';
import { logSumExp } from '../stats/log-sum-exp.ts';
import { damageLog, meanRest, shrinkAndDamageShares, shrinkShares, type LostShares } from './lost-shares.ts';
import { SHARE_PARTS, type PartsWeighed, type SharePart } from './part-shares.ts';
import type { ShareModel } from './share-model.ts';
import {
  ANIMAL_MIXTURE,
  DAMAGE_INDEX,
  maskedInverse,
  SOUND_COUNT as COUNT,
  SOUND_PARTS,
} from './sound-parts.ts';

const ALL = (1 << COUNT) - 1;
/** Four shares of one whole have three degrees of freedom: the distance leaves meat out. */
const ALL_BUT_MEAT = ALL & ~(1 << SOUND_PARTS.indexOf('meat'));
/** Standard deviations of the readings' sum are rounded to this step, so that loss distributions can be cached. */
const SD_STEP = 0.002;

/** As `shareFit`, where every weighed part is complete. At most 0. */
export function closedFit(model: ShareModel): (parts: PartsWeighed) => number {
  const rest = meanRest(model);
  const meanComposition = Float64Array.from(SOUND_PARTS, (_, i) => (model.mean[i] ?? 0) / rest);
  const covariance = compositionCovariance(model, meanComposition, rest);
  const inverses = new Map<number, Float64Array>();
  const inverseOf = (mask: number): Float64Array => {
    const cached = inverses.get(mask);
    if (cached) return cached;
    const found = maskedInverse(covariance, mask);
    inverses.set(mask, found);
    return found;
  };
  const losses = new Map<number, LostShares>();
  const lossOf = (parts: PartsWeighed): LostShares => {
    const sd = Math.hypot(...SHARE_PARTS.map((part) => parts[part]?.sd ?? 0));
    const step = Math.round(sd / SD_STEP);
    const key = parts.damage ? step : -1 - step;
    let found = losses.get(key);
    if (!found) {
      const variance = (step * SD_STEP) ** 2;
      found = parts.damage ? shrinkShares(model, variance) : shrinkAndDamageShares(model, variance);
      losses.set(key, found);
    }
    return found;
  };

  const deviations = new Float64Array(COUNT);
  /** Logarithm of the relative density of the weighed parts if all four sum to `whole`. */
  function composition(parts: PartsWeighed, mask: number, whole: number): number {
    let count = 0;
    for (let i = 0; i < COUNT; i++) {
      if (!(mask & (1 << i))) continue;
      deviations[i] = (parts[SOUND_PARTS[i] as SharePart]?.share ?? 0) / whole - (meanComposition[i] ?? 0);
      count += 1;
    }
    const weights = inverseOf(mask);
    let squared = 0;
    for (let i = 0; i < COUNT; i++)
      if (mask & (1 << i))
        for (let j = 0; j < COUNT; j++)
          if (mask & (1 << j))
            squared += (weights[i * COUNT + j] ?? 0) * (deviations[i] ?? 0) * (deviations[j] ?? 0);
    let sum = 0;
    for (const { probability, scale } of ANIMAL_MIXTURE)
      sum += (probability / scale ** count) * Math.exp(-squared / (2 * scale * scale));
    return sum > 0 ? Math.log(sum) : -squared / 50 + Math.log(0.01);
  }

  return (parts) => {
    let mask = 0;
    let total = 0;
    for (let i = 0; i < COUNT; i++) {
      const part = parts[SOUND_PARTS[i] as SharePart];
      if (!part) continue;
      mask |= 1 << i;
      total += part.share;
    }
    const damage = parts.damage?.share ?? 0;
    const lost = lossOf(parts);
    const ofDamage = parts.damage ? damageLog(model, damage) : 0;
    if (mask === ALL)
      return ofDamage + lost.log(1 - damage - total) + composition(parts, ALL_BUT_MEAT, total);
    if (mask === 0) return ofDamage;
    return (
      ofDamage +
      logSumExp(
        lost.points.map(({ share, mass }) => {
          const whole = Math.max(1e-3, 1 - damage - share);
          return Math.log(mass) + composition(parts, mask, whole);
        }),
      )
    );
  };
}

/** Covariance of the sound parts as shares of their sum, whatever is lost. */
function compositionCovariance(
  { covariance }: ShareModel,
  meanComposition: Float64Array,
  rest: number,
): Matrix {
  // The linear map: part − mean composition × (sum of the sound parts).
  const map = Matrix.zeros(COUNT, SHARE_PARTS.length);
  for (let i = 0; i < COUNT; i++)
    for (let j = 0; j < SHARE_PARTS.length; j++)
      if (j !== DAMAGE_INDEX) map.set(i, j, (i === j ? 1 : 0) - (meanComposition[i] ?? 0));
  return map
    .mmul(covariance)
    .mmul(map.transpose())
    .div(rest ** 2);
}

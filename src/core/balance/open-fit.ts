/** The likelihood of the parts weighed so far while more may follow. */
import { Matrix } from 'ml-matrix';
import { normalCdf } from '../stats/distributions.ts';
import { logSumExp } from '../stats/log-sum-exp.ts';
import { damageLog } from './lost-shares.ts';
import { DAMAGE_OFFSET, SHARE_PARTS, type PartsWeighed, type SharePart } from './part-shares.ts';
import type { ShareModel } from './share-model.ts';
import {
  animalLog,
  DAMAGE_INDEX as DAMAGE,
  maskedInverse,
  SOUND_COUNT as COUNT,
  SOUND_PARTS as SOUND,
} from './sound-parts.ts';

/** Grid of unweighed damage, in deviations of its logarithm. */
const DEVIATIONS = [-1.5, -0.5, 0.5, 1.25, 2, 2.75] as const;
/** Probability that damage which is not on the list while cutting goes on is none at all. Our own choice. */
const NO_DAMAGE_PROBABILITY = 0.5;
/** SD of the share by which parts may outweigh their whole: two scales and rounding. */
const OVERWEIGHT_SD = 0.004;
/** Standard deviations of readings are rounded to this step, so that inverse matrices can be cached. */
const SD_STEP = 0.001;
const MAX_SD_STEPS = 63;

/** A point of the damage distribution, its log mass, and the conditional means of the sound parts. */
interface DamagePoint {
  readonly damage: number;
  readonly log: number;
  readonly expected: Float64Array;
}

/**
 * As `shareFit`, while cutting continues: an open part is set to its likeliest value at or above the weighed share,
 * so that missing totes are not an error.
 */
export function openFit(model: ShareModel): (parts: PartsWeighed) => number {
  const variance = model.covariance.get(DAMAGE, DAMAGE);
  const slope = SOUND.map((_, i) => model.covariance.get(i, DAMAGE) / variance);
  const sound = Matrix.zeros(COUNT, COUNT);
  for (let i = 0; i < COUNT; i++)
    for (let j = 0; j < COUNT; j++)
      sound.set(i, j, model.covariance.get(i, j) - (slope[i] ?? 0) * (slope[j] ?? 0) * variance);

  const damagePoint = (damage: number, log: number): DamagePoint => ({
    damage,
    log,
    expected: Float64Array.from(
      SOUND.map((_, i) => (model.mean[i] ?? 0) + (slope[i] ?? 0) * (damage - (model.mean[DAMAGE] ?? 0))),
    ),
  });
  const slices = damageSlices(model);
  const unweighed = [
    damagePoint(0, Math.log(NO_DAMAGE_PROBABILITY)),
    ...slices.map(({ damage, log }) => damagePoint(damage, log)),
  ];
  const damagePointsOf = ({ damage }: PartsWeighed): readonly DamagePoint[] => {
    if (!damage) return unweighed;
    if (!damage.open) return [damagePoint(damage.share, damageLog(model, damage.share))];
    return unweighed.map((one) => (one.damage < damage.share ? damagePoint(damage.share, one.log) : one));
  };

  /** Inverse covariances of subsets of the parts, row by row, all rows and columns kept (0 where not in the subset). */
  const inverses = new Map<number, Float64Array>();
  function inverseOf(mask: number, parts: PartsWeighed): Float64Array {
    let key = mask;
    for (let i = 0; i < COUNT; i++) {
      const sd = mask & (1 << i) ? (parts[SOUND[i] as SharePart]?.sd ?? 0) : 0;
      key = key * (MAX_SD_STEPS + 1) + Math.min(MAX_SD_STEPS, Math.round(sd / SD_STEP));
    }
    const cached = inverses.get(key);
    if (cached) return cached;
    const found = maskedInverse(sound, mask, (i) => (parts[SOUND[i] as SharePart]?.sd ?? 0) ** 2);
    inverses.set(key, found);
    return found;
  }

  const deviations = new Float64Array(COUNT);
  const weighted = new Float64Array(COUNT);
  /** Squared Mahalanobis distance of the closed parts and their number; open parts join where their bound is active. */
  function distance(parts: PartsWeighed, expected: Float64Array): { squared: number; count: number } {
    let mask = 0;
    for (let i = 0; i < COUNT; i++) {
      const part = parts[SOUND[i] as SharePart];
      deviations[i] = part ? part.share - (expected[i] ?? 0) : 0;
      if (part && (!part.open || (deviations[i] ?? 0) > 0)) mask |= 1 << i;
    }
    for (;;) {
      const weights = inverseOf(mask, parts);
      let squared = 0;
      let count = 0;
      for (let i = 0; i < COUNT; i++) {
        let sum = 0;
        for (let j = 0; j < COUNT; j++) sum += (weights[i * COUNT + j] ?? 0) * (deviations[j] ?? 0);
        weighted[i] = sum;
        if (!(mask & (1 << i))) continue;
        squared += sum * (deviations[i] ?? 0);
        count += 1;
      }
      const exceeded = firstExceeded(parts, mask);
      if (exceeded === -1) return { squared, count };
      mask |= 1 << exceeded;
    }
  }

  /** The first open part whose bound lies above its conditional mean, or -1: there the bound is active. */
  function firstExceeded(parts: PartsWeighed, mask: number): number {
    for (let i = 0; i < COUNT; i++) {
      if (mask & (1 << i) || !parts[SOUND[i] as SharePart]) continue;
      let left = 0;
      for (let j = 0; j < COUNT; j++) if (mask & (1 << j)) left += sound.get(i, j) * (weighted[j] ?? 0);
      if ((deviations[i] ?? 0) > left) return i;
    }
    return -1;
  }

  return (parts) => {
    const scores: number[] = [];
    for (const { log, expected } of damagePointsOf(parts)) {
      const { squared, count } = distance(parts, expected);
      scores.push(log + animalLog(squared, count, model.degrees));
    }
    const total = SHARE_PARTS.reduce((sum, part) => sum + (parts[part]?.share ?? 0), 0);
    const over = Math.max(0, total - 1) / OVERWEIGHT_SD;
    return logSumExp(scores) - (over * over) / 2;
  };
}

/** The discretised distribution of unweighed damage. */
function damageSlices({ damage: { logMean, logSd } }: ShareModel): { damage: number; log: number }[] {
  return DEVIATIONS.map((z, i) => {
    const [below, above] = [DEVIATIONS[i - 1], DEVIATIONS[i + 1]];
    const mass =
      (above === undefined ? 1 : normalCdf((z + above) / 2)) -
      (below === undefined ? 0 : normalCdf((below + z) / 2));
    const damage = Math.min(1, Math.max(0, Math.exp(logMean + logSd * z) - DAMAGE_OFFSET));
    return { damage, log: Math.log((1 - NO_DAMAGE_PROBABILITY) * mass) };
  });
}

/**
 * The likelihood of the parts of a finished animal. The loss (shrink, and unweighed damage) is skewed and
 * independent of the composition, which is how the rest divides into meat, fat, sinew and bone.
 */
import { logSumExp } from '../stats/log-sum-exp.ts';
import { compositionFit } from './composition.ts';
import { damageLog, shrinkAndDamageShares, shrinkShares, type LostShares } from './lost-shares.ts';
import { SHARE_PARTS, type PartsWeighed, type SharePart } from './part-shares.ts';
import type { ShareModel } from './share-model.ts';
import { SOUND_COUNT as COUNT, SOUND_PARTS } from './sound-parts.ts';

const ALL = (1 << COUNT) - 1;
/** Standard deviations of the readings' sum are rounded to this step, so that loss distributions can be cached. */
const SD_STEP = 0.002;

/** As `shareFit`, where every weighed part is complete. 0 for the means; a little more for the likeliest, which have less fat. */
export function closedFit(model: ShareModel): (parts: PartsWeighed) => number {
  const composition = compositionFit(model);
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

  const shares = new Float64Array(COUNT);
  return (parts) => {
    let mask = 0;
    let total = 0;
    for (let i = 0; i < COUNT; i++) {
      const part = parts[SOUND_PARTS[i] as SharePart];
      shares[i] = part?.share ?? 0;
      if (!part) continue;
      mask |= 1 << i;
      total += part.share;
    }
    const damage = parts.damage?.share ?? 0;
    const lost = lossOf(parts);
    const ofDamage = parts.damage ? damageLog(model, damage) : 0;
    if (mask === ALL) return ofDamage + lost.log(1 - damage - total) + composition(shares, mask, total);
    if (mask === 0) return ofDamage;
    const logs = new Float64Array(lost.shares.length);
    for (let i = 0; i < logs.length; i++) {
      const whole = Math.max(1e-3, 1 - damage - (lost.shares[i] ?? 0));
      logs[i] = (lost.logMasses[i] ?? 0) + composition(shares, mask, whole);
    }
    return ofDamage + logSumExp(logs);
  };
}

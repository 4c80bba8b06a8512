/**
 * How well the parts of a finished animal fit its kind. What is lost (shrink, and damage where nobody weighed it) is
 * skewed and the same for odd animals as for all; what is left divides into meat, fat, sinew and bone about normally.
 */
import { inverse, Matrix } from 'ml-matrix';
import { logSumExp } from '../stats/log-sum-exp.ts';
import { damageLog, meanRest, shrinkAndDamageShares, shrinkShares, type LostShares } from './lost-shares.ts';
import { SHARE_PARTS, type SharePart } from './part-shares.ts';
import type { PartsWeighed } from './parts-weighed.ts';
import type { ShareModel } from './share-model.ts';

const SOUND = SHARE_PARTS.filter((part) => part !== 'damage');
const COUNT = SOUND.length;
const DAMAGE = SHARE_PARTS.indexOf('damage');
const ALL = (1 << COUNT) - 1;
/** The last of four shares of one whole is known from the other three: meat is left out of the distance. */
const BUT_MEAT = ALL & ~(1 << SOUND.indexOf('meat'));
/**
 * Some animals divide unlike their kind: one in twenty with a spread two and a half times as wide, one in a hundred five
 * times. Without them an odd animal would be taken for a slip. Our own choice.
 */
const KINDS_OF_ANIMAL = [
  { chance: 0.94, spread: 1 },
  { chance: 0.05, spread: 2.5 },
  { chance: 0.01, spread: 5 },
] as const;
/** Variances of the readings' sum are told apart in steps of this standard deviation. */
const SD_STEP = 0.002;

/** As `shareFit`, where every part that was weighed was weighed to the end. At most 0. */
export function closedFit(model: ShareModel): (parts: PartsWeighed) => number {
  const rest = meanRest(model);
  const usual = Float64Array.from(SOUND, (_, i) => (model.mean[i] ?? 0) / rest);
  const spread = compositionSpread(model, usual, rest);
  const inverses = new Map<number, Float64Array>();
  const inverseOf = (mask: number): Float64Array => {
    const known = inverses.get(mask);
    if (known) return known;
    const found = inverseWithin(spread, mask);
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
  /** Logarithm of the relative density of the weighed parts if all four come to `whole`. */
  function composition(parts: PartsWeighed, mask: number, whole: number): number {
    let count = 0;
    for (let i = 0; i < COUNT; i++) {
      if (!(mask & (1 << i))) continue;
      deviations[i] = (parts[SOUND[i] as SharePart]?.share ?? 0) / whole - (usual[i] ?? 0);
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
    for (const { chance, spread: by } of KINDS_OF_ANIMAL)
      sum += (chance / by ** count) * Math.exp(-squared / (2 * by * by));
    return sum > 0 ? Math.log(sum) : -squared / 50 + Math.log(0.01);
  }

  return (parts) => {
    let mask = 0;
    let total = 0;
    for (let i = 0; i < COUNT; i++) {
      const part = parts[SOUND[i] as SharePart];
      if (!part) continue;
      mask |= 1 << i;
      total += part.share;
    }
    const damage = parts.damage?.share ?? 0;
    const lost = lossOf(parts);
    const known = parts.damage ? damageLog(model, damage) : 0;
    if (mask === ALL) return known + lost.log(1 - damage - total) + composition(parts, BUT_MEAT, total);
    if (mask === 0) return known;
    return (
      known +
      logSumExp(
        lost.points.map(({ share, mass }) => {
          const whole = Math.max(1e-3, 1 - damage - share);
          return Math.log(mass) + composition(parts, mask, whole);
        }),
      )
    );
  };
}

/** Covariance of the sound parts as shares of what they come to together, whatever is lost. */
function compositionSpread({ covariance }: ShareModel, usual: Float64Array, rest: number): Matrix {
  // A part less its usual share of what is left: part - usual * (sum of the sound parts).
  const by = Matrix.zeros(COUNT, SHARE_PARTS.length);
  for (let i = 0; i < COUNT; i++)
    for (let j = 0; j < SHARE_PARTS.length; j++)
      if (j !== DAMAGE) by.set(i, j, (i === j ? 1 : 0) - (usual[i] ?? 0));
  return by
    .mmul(covariance)
    .mmul(by.transpose())
    .div(rest ** 2);
}

/** Inverse of the rows and columns in the mask, all of them kept (0 where not in it). */
function inverseWithin(spread: Matrix, mask: number): Float64Array {
  const found = new Float64Array(COUNT * COUNT);
  const at = SOUND.flatMap((_, i) => (mask & (1 << i) ? [i] : []));
  if (at.length === 0) return found;
  const inverted = inverse(spread.selection(at, at));
  for (const [k, i] of at.entries())
    for (const [l, j] of at.entries()) found[i * COUNT + j] = inverted.get(k, l);
  return found;
}

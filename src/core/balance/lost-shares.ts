/** Distribution of the share lost between hook and packages: shrink, and unweighed damage. */
import { DAMAGE_OFFSET, SHARE_PARTS } from './part-shares.ts';
import type { ShareModel } from './share-model.ts';

/** A point of a discretised distribution and its probability mass. */
interface MassPoint {
  readonly share: number;
  readonly mass: number;
}

export interface LostShares {
  /** Logarithm of the density of a lost share relative to the maximum: at most 0. */
  log(share: number): number;
  /** The discretised distribution, for sums where the weighed parts do not determine the loss. */
  readonly shares: Float64Array;
  /** Logarithms of the masses at `shares`. */
  readonly logMasses: Float64Array;
}

/**
 * Shrink is non-negative up to the difference of two scales and rounding, and skewed: log-normal in share + this offset,
 * with the model's mean and variance.
 */
const SHRINK_OFFSET = 0.01;
const MIN_SHRINK = 0.005;
/** A wide mixture component for a lost bag or a dry cooler: one animal in a hundred. Our own choice. */
const HEAVY_TAIL = { chance: 0.01, spread: 2.5 } as const;

const SHRINK_POINTS = 15;
const SHRINK_RANGE_SD = 3;
/** Grid step and maximum of unweighed damage. */
const DAMAGE_STEP = 0.01;
const MAX_DAMAGE = 0.5;

/** @param extraVariance variance of the sum of the readings, in shares, in addition to the model's */
export function shrinkShares(model: ShareModel, extraVariance: number): LostShares {
  const shrink = shrinkOf(model, extraVariance);
  return lostShares(shrink.density, shrink.points);
}

/** Shrink plus unweighed damage. */
export function shrinkAndDamageShares(model: ShareModel, extraVariance: number): LostShares {
  const shrink = shrinkOf(model, extraVariance);
  const damages = damagePoints(model);
  const density = (share: number): number => {
    let sum = model.damage.none * shrink.density(share);
    for (const { share: damage, mass } of damages) sum += mass * shrink.density(share - damage);
    return sum;
  };
  const low = shrink.points[0]?.share ?? 0;
  const steps = Math.round((MAX_DAMAGE + (shrink.points.at(-1)?.share ?? 0) - low) / DAMAGE_STEP);
  const points = Array.from({ length: steps }, (_, i) => {
    const share = low + (i + 0.5) * DAMAGE_STEP;
    return { share, mass: density(share) * DAMAGE_STEP };
  });
  return lostShares(density, points);
}

function lostShares(density: (share: number) => number, points: readonly MassPoint[]): LostShares {
  const most = points.reduce((max, { share }) => Math.max(max, density(share)), 0);
  return {
    log: (share) => Math.log(density(share) / most),
    shares: Float64Array.from(points, ({ share }) => share),
    logMasses: Float64Array.from(points, ({ mass }) => Math.log(mass)),
  };
}

/** Relative log likelihood of weighed damage: only more than usual is penalised. */
export function damageLog({ damage: { logMean, logSd, degrees } }: ShareModel, share: number): number {
  const z = (Math.log(share + DAMAGE_OFFSET) - logMean) / logSd;
  return share === 0 ? 0 : studentLog(Math.max(0, z), degrees);
}

/** Logarithm of the density of Student's t relative to its maximum. */
function studentLog(t: number, degrees: number): number {
  return (-(degrees + 1) / 2) * Math.log1p(t ** 2 / degrees);
}

function shrinkOf(
  { mean, covariance }: ShareModel,
  extraVariance: number,
): { density(share: number): number; points: MassPoint[] } {
  const middle = Math.max(MIN_SHRINK, 1 - mean.reduce((sum, share) => sum + share, 0) + SHRINK_OFFSET);
  const relative = (covariance.sum() + extraVariance) / middle ** 2;
  const logSd = Math.sqrt(Math.log1p(relative));
  const logMean = Math.log(middle) - logSd ** 2 / 2;
  const density = (share: number): number => {
    const above = share + SHRINK_OFFSET;
    if (!(above > 0)) return MIN_DENSITY;
    const z = (Math.log(above) - logMean) / logSd;
    const tailZ = z / HEAVY_TAIL.spread;
    return (
      MIN_DENSITY +
      ((1 - HEAVY_TAIL.chance) * Math.exp((-z * z) / 2) +
        (HEAVY_TAIL.chance / HEAVY_TAIL.spread) * Math.exp((-tailZ * tailZ) / 2)) /
        (above * logSd * ROOT_TWO_PI)
    );
  };
  const width = (2 * SHRINK_RANGE_SD) / SHRINK_POINTS;
  const points = Array.from({ length: SHRINK_POINTS }, (_, i) => {
    const z = (i + 0.5) * width - SHRINK_RANGE_SD;
    const mass = (Math.exp((-z * z) / 2) * width) / ROOT_TWO_PI;
    return { share: Math.exp(logMean + logSd * z) - SHRINK_OFFSET, mass };
  });
  return { density, points };
}
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Keeps logarithms finite, and explanations of extreme sets comparable. */
const MIN_DENSITY = 1e-12;

/** The distribution of damage from none to `MAX_DAMAGE`, a Student's t on the logarithm of share + `DAMAGE_OFFSET`. */
function damagePoints({ damage: { logMean, logSd, degrees, none } }: ShareModel): MassPoint[] {
  const points = Array.from({ length: Math.round(MAX_DAMAGE / DAMAGE_STEP) }, (_, i) => {
    const share = (i + 0.5) * DAMAGE_STEP;
    const z = (Math.log(share + DAMAGE_OFFSET) - logMean) / logSd;
    return { share, mass: Math.exp(studentLog(z, degrees)) / (share + DAMAGE_OFFSET) };
  });
  const all = points.reduce((sum, { mass }) => sum + mass, 0);
  return points.map(({ share, mass }) => ({ share, mass: ((1 - none) * mass) / all }));
}

/** The mean share of the parts other than damage. */
export function meanRest({ mean }: ShareModel): number {
  return mean.reduce((sum, share, i) => (SHARE_PARTS[i] === 'damage' ? sum : sum + share), 0);
}

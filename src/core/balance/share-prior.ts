/** The prior of the parts' shares from the published figures. */
import { Matrix } from 'ml-matrix';
import { seededRandom } from '../stats/random.ts';
import type { Brought, Sex, SpeciesProfile } from '../species/species.ts';
import { predictSplits } from '../yield/predict.ts';
import { modelFrom } from '../yield/model.ts';
import { damageOfAll, splitPriors } from '../yield/prior.ts';
import { baseOf, divide, inverseLogit, SPLITS, type Base, type Split } from '../yield/tree.ts';
import { SHARE_PARTS } from './part-shares.ts';

/** Mean and covariance of the shares of `SHARE_PARTS` in an animal of a new shop. */
export interface SharePrior {
  readonly mean: readonly number[];
  readonly covariance: Matrix;
}

const DRAWS = 2000;
const SEED = 1;
/** The carcass condition of each base, for the yield model that is sampled. */
const BROUGHT: Readonly<Record<Base, Brought>> = { carcass: 'skinned', quarters: 'quarters', boned: 'boned' };

const priors = new WeakMap<SpeciesProfile, Map<string, SharePrior>>();

/**
 * Moments of animals simulated from the yield model of the published figures, so that the parts of one carcass
 * correlate. Shrink, which is the remainder in that model, gets its own published standard deviation: all parts are
 * weighed, so their sum does not depend on how the animal divides.
 */
export function sharePrior(profile: SpeciesProfile, base: Base, sex: Sex = 'unknown'): SharePrior {
  const known = priors.get(profile) ?? new Map<string, SharePrior>();
  priors.set(profile, known);
  const key = `${base}/${sex}`;
  let prior = known.get(key);
  if (!prior) {
    // Most profiles give no figures by sex: those share one simulation.
    const asUnknown = sex !== 'unknown' && splitPriors(profile, base, sex) === splitPriors(profile, base);
    prior = asUnknown ? sharePrior(profile, base) : momentsOf(drawShares(profile, base, sex));
    known.set(key, prior);
  }
  return prior;
}

/** The base for a carcass condition. */
export function shareBaseOf(brought: Brought): Base {
  return baseOf(brought) ?? 'carcass';
}

function drawShares(profile: SpeciesProfile, base: Base, sex: Sex): number[][] {
  const random = seededRandom(SEED);
  const group = { species: profile.code, brought: BROUGHT[base], sex };
  const splits = predictSplits(modelFrom([profile], {}), group);
  // A covariance cannot express a point mass at zero: damage here is that of all animals, those without any included.
  const all = damageOfAll(profile);
  splits.damage = {
    ...splits.damage,
    location: all.location,
    scale: (splits.damage.scale * all.scale) / splitPriors(profile, base).damage.scale,
  };
  const draws = Array.from({ length: DRAWS }, () => {
    const share = {} as Record<Split, number>;
    for (const split of SPLITS) {
      const { location, scale } = splits[split];
      share[split] = inverseLogit(location + scale * random.normal());
    }
    return divide(1, share, base);
  });
  const meanShrink = draws.reduce((sum, { shrink }) => sum + shrink, 0) / DRAWS;
  const { mean, sd } = profile.loss.shrink;
  const spread = Math.hypot((meanShrink * sd) / mean, SCALES_SD);
  return draws.map((parts) => {
    const left = (1 - meanShrink - spread * random.normal()) / (1 - parts.shrink);
    return SHARE_PARTS.map((part) => parts[part] * left);
  });
}
/** The scales at the hook and at the table differ by about this share. Assumption. */
const SCALES_SD = 0.008;

function momentsOf(draws: readonly (readonly number[])[]): SharePrior {
  const mean = SHARE_PARTS.map((_, i) => draws.reduce((sum, draw) => sum + (draw[i] ?? 0), 0) / draws.length);
  const covariance = Matrix.zeros(mean.length, mean.length);
  for (const draw of draws)
    for (let i = 0; i < mean.length; i++)
      for (let j = 0; j < mean.length; j++) {
        const product = ((draw[i] ?? 0) - (mean[i] ?? 0)) * ((draw[j] ?? 0) - (mean[j] ?? 0));
        covariance.set(i, j, covariance.get(i, j) + product / (draws.length - 1));
      }
  // A part that never occurs (bone of boned meat) keeps a variance.
  for (let i = 0; i < mean.length; i++) covariance.set(i, i, covariance.get(i, i) + MIN_SD ** 2);
  return { mean, covariance };
}

/** Smallest prior SD of a share. */
const MIN_SD = 0.003;

/** Priors of the splits from a species profile, on the logit scale; damage is among animals that have any. */
import { ValidationError } from '../values/validation-error.ts';
import type { Sex, Share, SpeciesProfile } from '../species/species.ts';
import { logitNormalFromMoments } from './logit-normal.ts';
import { momentsAmongDamaged } from './zero-damage.ts';
import { logit, SPLITS, type Base, type Split } from './tree.ts';

/**
 * Location and scale on the logit scale of animals across shops; `animals` is the prior sample size of the location.
 */
export interface SplitPrior {
  readonly location: number;
  readonly scale: number;
  readonly animals: number;
}

/** Boned meat can only lose sinew, crust and drip: assumption, no published figure was found. */
const BONED_SINEW = { mean: 0.7, sd: 0.12 };

/**
 * The priors of all splits of one species for one base. Shares of the loss are turned into shares of what is left
 * at each step; saved fat, given as a share of hanging, into a share of the take-home. Where the profile gives the take-home
 * by sex, a known sex is shifted by half the difference on the logit scale; unknown sex is the even mixture.
 * @throws ValidationError `yield.prior` where a share is not inside (0, 1) or a spread not above 0, `yield.prior-spread`
 */
export function splitPriors(
  profile: SpeciesProfile,
  base: Base,
  sex: Sex = 'unknown',
): Readonly<Record<Split, SplitPrior>> {
  const priorsByBase = priorsByProfile.get(profile) ?? {};
  const priors = (priorsByBase[base] ??= computeSplitPriors(profile, base));
  priorsByProfile.set(profile, priorsByBase);
  const offset = sexOffset(takeHomeOf(profile, base), sex);
  if (offset === 0) return priors;
  return { ...priors, takeHome: { ...priors.takeHome, location: priors.takeHome.location + offset } };
}

/**
 * Offset of the published share of one sex from the midpoint of both, on the logit scale. It is centred because the two
 * figures need not average to the profile's mean, which stands for an even mix.
 */
function sexOffset({ bySex }: Share, sex: Sex): number {
  if (!bySex || sex === 'unknown') return 0;
  const half = (logit(bySex.male) - logit(bySex.female)) / 2;
  return sex === 'male' ? half : -half;
}

/** Cached by profile: moment matching takes longer than all other learning. */
const priorsByProfile = new WeakMap<SpeciesProfile, Partial<Record<Base, Record<Split, SplitPrior>>>>();

function computeSplitPriors(profile: SpeciesProfile, base: Base): Record<Split, SplitPrior> {
  const takeHome = takeHomeOf(profile, base);
  const { bone, sinew, animals } = profile.loss;
  const afterBone = 1 - bone.mean;
  const shares: Record<Split, { mean: number; sd: number; animals: number }> = {
    takeHome,
    fatSaved: { ...ofWhole(profile.ownFat, takeHome.mean), animals: profile.ownFat.animals },
    wholeCuts: profile.wholeCuts,
    bone: { ...bone, animals },
    sinew: { ...(base === 'boned' ? BONED_SINEW : ofWhole(sinew, afterBone)), animals },
    damage: { ...momentsAmongDamaged(damageOf(profile)), animals },
  };
  const priors = {} as Record<Split, SplitPrior>;
  for (const split of SPLITS) {
    const { mean, sd, animals: priorAnimals } = shares[split];
    if (!(mean > 0 && mean < 1 && sd > 0 && sd < 1 && priorAnimals > 0))
      throw new ValidationError('yield.prior', `${profile.code}.${split}`, { mean, sd });
    priors[split] = { ...logitNormalFromMoments(mean, sd), animals: priorAnimals };
  }
  return priors;
}

/** Location and scale of damage over all animals, those without any included: for models without zero inflation. */
export function damageOfAll(profile: SpeciesProfile): { location: number; scale: number } {
  const { mean, sd } = damageOf(profile);
  return logitNormalFromMoments(mean, sd);
}

function damageOf({ loss: { damage, shrink } }: SpeciesProfile): { mean: number; sd: number } {
  return ofWhole(damage, damage.mean + shrink.mean);
}

function takeHomeOf(profile: SpeciesProfile, base: Base) {
  if (base === 'carcass') return profile.takeHome;
  return base === 'quarters' ? profile.takeHomeOfQuarters : profile.takeHomeOfBoned;
}

function ofWhole(share: Pick<Share, 'mean' | 'sd'>, whole: number): { mean: number; sd: number } {
  return { mean: share.mean / whole, sd: share.sd / whole };
}

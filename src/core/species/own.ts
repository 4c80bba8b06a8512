/** A species added by the shop, built from a relative's figures until its own weights replace them. */
import { ValidationError } from '../values/validation-error.ts';
import { cautionsByName } from './hazards.ts';
import type { DressedRatios, Primal, Share, Sourced, SpeciesProfile } from './species.ts';

/** What a shop states of a species; the rest is copied from its relative. */
export interface SpeciesInput extends Pick<
  SpeciesProfile,
  'code' | 'name' | 'many' | 'words' | 'hangingGrams'
> {
  /** `share` may be in any measure: shares are scaled to a sum of 1. */
  readonly primals: readonly Primal[];
}

/**
 * The error of a ratio borrowed from another species is about as large as the differences between animals of one:
 * √(1² + 1²).
 */
const RATIO_WIDER = Math.SQRT2;
/** Where a mean counts as one animal, that already includes the doubt about it; the spread itself is borrowed too. */
const SHARE_WIDER = 1.2;
/** Upper limit for small skewed shares, such as saved fat: no logit-normal of their mean is much wider. */
const MAX_RELATIVE_SD = 1.25;
/** Smallest SD of a borrowed ratio. Our choice, as all standard deviations here. */
const MIN_RATIO_SD = 0.04;
const MIN_FAT_SD = 0.025;
/** Prior sample size of borrowed means, regardless of the relative's. */
const PRIOR_ANIMALS = 1;
const MAX_PRIMALS = 20;

/**
 * A complete profile from a relative's. Its means count as one animal of the shop's own, so that the first weighed
 * animals outvote them. Spreads are wider by a fifth; by √2 for ratios and the fat of trim, which have no sample
 * size, because the difference between two species adds to that between animals (our choice, no source). Every
 * source names the relative.
 * @param relative a profile with published figures; not one made here, or spreads would grow with each step
 * @throws ValidationError `species.no-primals`, `species.primal-share`,
 *   `species.primal-twice`, `species.too-many-primals`
 * @example ownSpecies(whiteTail, { name: 'Sika deer', … }).takeHome // { mean: 0.55, sd: 0.06, animals: 1, … }
 */
export function ownSpecies(relative: SpeciesProfile, wish: SpeciesInput): SpeciesProfile {
  const from = ({ source, cites }: Sourced): Sourced => ({
    grade: 'assumption',
    source: `taken over from ${relative.name}: the shop's own choice; ${source}`,
    cites,
  });
  const ratio = (share: Share): Share => {
    const wider = taken(share, RATIO_WIDER);
    return { ...wider, sd: Math.max(wider.sd, MIN_RATIO_SD) };
  };
  const dressed = ({ liveToDressed, dressedToHanging }: DressedRatios): DressedRatios => ({
    liveToDressed: ratio(liveToDressed),
    dressedToHanging: ratio(dressedToHanging),
  });
  const part = (share: Share): Share => taken(share, SHARE_WIDER);
  const counted = <T extends Share & { readonly animals: number }>(share: T): T => ({
    ...taken(share, SHARE_WIDER),
    animals: PRIOR_ANIMALS,
  });
  function taken<T extends Share>(share: T, wider: number): T {
    const sd = Math.max(share.sd, Math.min(share.sd * wider, share.mean * MAX_RELATIVE_SD));
    return { ...share, sd, ...from(share) };
  }
  const { ratios, loss } = relative;
  const trimFat = taken(relative.trimFat, RATIO_WIDER);
  return {
    code: wish.code,
    name: wish.name,
    many: wish.many,
    body: relative.body,
    family: relative.family,
    words: wish.words,
    hangingGrams: wish.hangingGrams,
    ratios: {
      ...dressed(ratios),
      legsOff: dressed(ratios.legsOff),
      ...(ratios.liveToHanging ? { liveToHanging: ratio(ratios.liveToHanging) } : {}),
    },
    trimFat: { ...trimFat, sd: Math.max(trimFat.sd, MIN_FAT_SD), ndb: null },
    takeHome: counted(relative.takeHome),
    takeHomeOfQuarters: counted(relative.takeHomeOfQuarters),
    takeHomeOfBoned: counted(relative.takeHomeOfBoned),
    wholeCuts: counted(relative.wholeCuts),
    loss: {
      bone: part(loss.bone),
      sinew: part(loss.sinew),
      damage: part(loss.damage),
      shrink: part(loss.shrink),
      animals: PRIOR_ANIMALS,
    },
    ownFat: counted(relative.ownFat),
    primals: wholePrimals(wish.primals),
    primalsFrom: {
      grade: 'assumption',
      source: `the shop's own, after ${relative.name}: ${relative.primalsFrom.source}`,
      cites: relative.primalsFrom.cites,
    },
    cautions: cautionsByName(wish.name, relative.cautions),
    like: relative.code,
  };
}

function wholePrimals(primals: readonly Primal[]): Primal[] {
  if (primals.length === 0) throw new ValidationError('species.no-primals', 'primals');
  if (primals.length > MAX_PRIMALS)
    throw new ValidationError('species.too-many-primals', 'primals', { most: MAX_PRIMALS });
  const names = new Set<string>();
  for (const { name, share } of primals) {
    if (!(share > 0 && Number.isFinite(share)))
      throw new ValidationError('species.primal-share', 'primals', { primal: name });
    const key = name.toLowerCase();
    if (names.has(key)) throw new ValidationError('species.primal-twice', 'primals', { primal: name });
    names.add(key);
  }
  const total = primals.reduce((sum, { share }) => sum + share, 0);
  return primals.map((primal) => ({ ...primal, share: primal.share / total }));
}

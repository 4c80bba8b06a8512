/** The weighed parts of a finished animal as shares of its base. */
import type { YieldRow } from '../../book/sums/sums.ts';
import { SHARE_PARTS, type PartShares } from '../../core/balance/part-shares.ts';
import { shareFit } from '../../core/balance/share-fit.ts';
import { shareModel } from '../../core/balance/share-model.ts';
import { shareBaseOf, sharePrior } from '../../core/balance/share-prior.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import type { YieldObservation } from '../../core/yield/yield.ts';

/** Log likelihood under the published figures below which weights are an uncorrected slip and are not used. */
const MIN_FIT = -10;

/** Null for inconsistent weights. An unweighed part is absent; one stated as none is 0. */
export function partSharesOf(
  row: YieldRow,
  { hangingGrams: base, takeHomeGrams: takeHome, group }: YieldObservation,
  profile: SpeciesProfile,
): PartShares | null {
  const ownFat = row.fat_saved ?? row.own_fat_ground;
  const grams: Record<string, number | null> = {
    meat: takeHome === undefined ? null : takeHome - ownFat,
    fatSaved: row.fat_saved,
    sinew: row.sinew,
    bone: row.bone,
    damage: row.damage,
  };
  const known = SHARE_PARTS.flatMap((part) => {
    const weighed = grams[part] ?? null;
    return weighed === null ? [] : [[part, weighed / base] as const];
  });
  const fit = publishedFit(profile, shareBaseOf(group.brought), group.sex);
  const parts = Object.fromEntries(known.map(([part, share]) => [part, { share, sd: 0, open: false }]));
  return fit(parts) < MIN_FIT ? null : Object.fromEntries(known);
}

type Fit = ReturnType<typeof shareFit>;
type PriorOf = Parameters<typeof sharePrior>;
const fits = new WeakMap<SpeciesProfile, Map<string, Fit>>();

/** The likelihood of parts under the published figures of a kind, cached for thousands of animals. */
function publishedFit(profile: SpeciesProfile, base: PriorOf[1], sex: PriorOf[2]): Fit {
  const ofProfile = fits.get(profile) ?? new Map<string, Fit>();
  fits.set(profile, ofProfile);
  const key = `${base} ${sex}`;
  const known = ofProfile.get(key);
  if (known) return known;
  const made = shareFit(shareModel(sharePrior(profile, base, sex)));
  ofProfile.set(key, made);
  return made;
}

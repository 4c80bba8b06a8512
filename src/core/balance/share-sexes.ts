/**
 * Both sexes of a kind share one distribution of parts, shifted by their published difference. So data of one sex
 * inform the other, and each is still compared with its own mean.
 */
import type { Sex, SpeciesProfile } from '../species/species.ts';
import type { Base } from '../yield/tree.ts';
import {
  joinKinds,
  kindKey,
  positionsOf,
  SHARE_PARTS,
  type KindSums,
  type ShareSums,
} from './part-shares.ts';
import type { ShareModel } from './share-model.ts';
import { sharePrior } from './share-prior.ts';
import { SEXES } from '../../trade/animal.ts';

/**
 * How far the mean shares of `SHARE_PARTS` of one sex lie from those of an animal of unknown sex; 0 where nothing
 * is published. Damage is the same for both.
 */
export function sexShift(profile: SpeciesProfile, base: Base, sex: Sex): readonly number[] {
  const [own, both] = [sharePrior(profile, base, sex).mean, sharePrior(profile, base).mean];
  return SHARE_PARTS.map((part, i) => (part === 'damage' ? 0 : (own[i] ?? 0) - (both[i] ?? 0)));
}

/** The sums of all sexes of a kind, shifted to unknown sex; undefined where there are none. */
export function poolSexes(shares: ShareSums, profile: SpeciesProfile, base: Base): KindSums | undefined {
  return SEXES.reduce<KindSums | undefined>((all, sex) => {
    const kind = shares[kindKey(profile.code, base, sex)];
    if (!kind) return all;
    const centred = shiftSums(kind, sexShift(profile, base, sex));
    return all ? joinKinds(all, centred) : centred;
  }, undefined);
}

/** The model of one sex from that of `poolSexes`. */
export function shiftMean(model: ShareModel, shift: readonly number[]): ShareModel {
  return { ...model, mean: model.mean.map((share, i) => share + (shift[i] ?? 0)) };
}

/** The sums after subtracting `shift` from the shares of each animal. */
function shiftSums(kind: KindSums, shift: readonly number[]): KindSums {
  if (shift.every((share) => share === 0)) return kind;
  const patterns = Object.entries(kind.patterns).map(([pattern, { n, sums, products }]) => {
    const shifts = positionsOf(pattern).map((at) => shift[at] ?? 0);
    const size = shifts.length;
    const product = (value: number, at: number): number => {
      const [i, j] = [Math.floor(at / size), at % size];
      const [a, b] = [shifts[i] ?? 0, shifts[j] ?? 0];
      return value - a * (sums[j] ?? 0) - b * (sums[i] ?? 0) + n * a * b;
    };
    return [
      pattern,
      { n, sums: sums.map((sum, i) => sum - n * (shifts[i] ?? 0)), products: products.map(product) },
    ];
  });
  return { ...kind, patterns: Object.fromEntries(patterns) as KindSums['patterns'] };
}

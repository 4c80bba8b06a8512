/** The true composition of an invented animal, drawn from the yield model's assumptions. */
import type { SpeciesProfile } from '../../core/species/species.ts';
import { withinShopFactor } from '../../core/yield/columns.ts';
import { damageOfAll, splitPriors } from '../../core/yield/prior.ts';
import { baseOf, divide, inverseLogit, SPLITS, type Part, type Split } from '../../core/yield/tree.ts';
import type { Age, Brought, Sex } from '../../desk/contract/contract.ts';
import type { Draw } from './draw.ts';
import { SHOP, type DamageSeen } from './invention.ts';

export interface Made {
  profile: SpeciesProfile;
  brought: Brought;
  sex: Sex;
  age: Age;
  damage: DamageSeen;
  /** Hanging weight, or the received weight of pieces. */
  baseGrams: number;
  cutsShare: number;
  savesFat: boolean;
  /** The cutter's effect, in standard deviations. */
  cutterShift: number;
}

/** Effects on a split, in animal-to-animal standard deviations; our own choice. */
const AGE_MOVES: Readonly<Record<Age, number>> = { young: -0.4, yearling: 0, adult: 0.1, unknown: 0 };
const DAMAGE_MOVES: Readonly<Record<DamageSeen, { takeHome: number; damage: number }>> = {
  none: { takeHome: 0.3, damage: -1 },
  some: { takeHome: 0, damage: 0.1 },
  heavy: { takeHome: -0.9, damage: 1.1 },
};
/** Damage of a clean animal. */
const CLEAN = 0.6;

/** Grams of every part; their sum is `baseGrams`. */
export function truthOf(made: Made, draw: Draw): Record<Part, number> {
  const base = baseOf(made.brought) ?? 'carcass';
  const published = splitPriors(made.profile, base, made.sex);
  // Published damage is a mean over all animals; the ones without any are drawn below.
  const priors = { ...published, damage: { ...published.damage, ...damageOfAll(made.profile) } };
  const share = {} as Record<Split, number>;
  for (const split of SPLITS) {
    const { location: middle, scale: spread, animals } = priors[split];
    const z = movesOf(split, made) + draw.normal();
    share[split] = inverseLogit(middle + spread * withinShopFactor(animals) * z);
  }
  share.wholeCuts = Math.min(0.95, Math.max(0.05, made.cutsShare + 0.04 * draw.normal()));
  if (made.damage === 'none' && draw.maybe(CLEAN)) share.damage = 0;
  const parts = divide(made.baseGrams, share, base);
  return made.savesFat ? parts : thrownFat(parts);
}

/** Unwanted fat counts as sinew. */
function thrownFat(parts: Record<Part, number>): Record<Part, number> {
  const { fatSaved, sinew, takeHome, loss } = parts;
  return {
    ...parts,
    fatSaved: 0,
    sinew: sinew + fatSaved,
    takeHome: takeHome - fatSaved,
    loss: loss + fatSaved,
  };
}

function movesOf(split: Split, { age, damage, cutterShift }: Made): number {
  const shop = SHOP.shopShift[split] ?? 0;
  if (split === 'takeHome') return shop + cutterShift + AGE_MOVES[age] + DAMAGE_MOVES[damage].takeHome;
  return split === 'damage' ? shop + DAMAGE_MOVES[damage].damage : shop;
}

/**
 * The columns of the design matrix: one effect for the shop, and one each for family, species, carcass condition,
 * sex, age and shot damage. An effect without data keeps its prior; a species without data still shares the effects
 * of the shop and its family (partial pooling). Effects are in units of the species' own animal-to-animal standard
 * deviation, so that elk and deer can share them.
 */
import { ValidationError } from '../values/validation-error.ts';
import type { Damage, SpeciesProfile } from '../species/species.ts';
import type { Split } from './tree.ts';
import type { Group } from './observation.ts';
import { AGES, BROUGHT, SEXES } from '../../trade/animal.ts';

/** The prior of one effect: mean, and variance in squared standard deviations of an animal. */
export interface Column {
  readonly name: string;
  readonly priorMean: number;
  readonly variance: number;
  /** Prior probability that the stated prior is far too narrow (`conflict.ts`); default 0. */
  readonly robustWeight?: number;
}

/**
 * Between-shop and between-group variances as shares of the animal-to-animal variance. All are our own choice: no
 * source gives one. 0.12 says that shops differ by about a third of what animals in one shop differ by.
 */
const PRIOR_VARIANCE = { shop: 0.12, family: 0.06, brought: 0.06, sex: 0.08, age: 0.08, damage: 0.1 };

/**
 * Prior probability that a prior mean is far off: one species in twenty, since most profiles rest on few animals,
 * and one effect in fifty. Our choice. The effects of shop and family need none: every animal informs them.
 */
const ROBUST_WEIGHT = {
  species: 0.05,
  shop: 0,
  family: 0,
  brought: 0.02,
  sex: 0.02,
  age: 0.02,
  damage: 0.02,
};

/** Their sum, without that of the species. */
const SHARED_VARIANCE = Object.values(PRIOR_VARIANCE).reduce((total, variance) => total + variance, 0);

/**
 * The factor from a profile's standard deviation, which is of animals across shops, to that within one shop and kind.
 * `animals` is the prior sample size of the profile's mean.
 */
export function withinShopFactor(animals: number): number {
  return 1 / Math.sqrt(1 + SHARED_VARIANCE + 1 / animals);
}

export const DAMAGES = ['none', 'some', 'heavy', 'unknown'] as const satisfies readonly Damage[];

/**
 * Prior means of the damage effects, in standard deviations. Shops commonly see about 5 points of take-home between
 * a clean animal and one shot through shoulder or ham (common practice, no source).
 */
const DAMAGE_PRIOR_MEANS: Readonly<Partial<Record<Split, Readonly<Record<Damage, number>>>>> = {
  takeHome: { none: 0.3, some: 0, heavy: -0.8, unknown: 0 },
  damage: { none: -0.8, some: 0.2, heavy: 1, unknown: 0 },
};

/** The columns of one split, in the order that `effectIndices` counts in. */
export function columnsOf(
  split: Split,
  profiles: readonly SpeciesProfile[],
  animals: (species: string) => number,
): Column[] {
  const plain = (kind: keyof typeof PRIOR_VARIANCE, levels: readonly string[]): Column[] =>
    levels.map((level) => ({
      name: `${kind}:${level}`,
      priorMean: 0,
      variance: PRIOR_VARIANCE[kind],
      robustWeight: ROBUST_WEIGHT[kind],
    }));
  return [
    ...plain('shop', ['']),
    ...plain('family', [...new Set(profiles.map((profile) => profile.family))]),
    ...profiles.map(({ code }) => ({
      name: `species:${code}`,
      priorMean: 0,
      variance: 1 / animals(code),
      robustWeight: ROBUST_WEIGHT.species,
    })),
    ...plain('brought', BROUGHT),
    ...plain('sex', SEXES),
    ...plain('age', AGES),
    ...DAMAGES.map((damage) => ({
      name: `damage:${damage}`,
      priorMean: DAMAGE_PRIOR_MEANS[split]?.[damage] ?? 0,
      variance: PRIOR_VARIANCE.damage,
      robustWeight: ROBUST_WEIGHT.damage,
    })),
  ];
}

/** Indices of the columns that apply to an animal of this kind. @throws ValidationError `yield.group` */
export function effectIndices(
  group: Group,
  family: string,
  indexByName: ReadonlyMap<string, number>,
): number[] {
  const { species, brought, sex = 'unknown', age = 'unknown', damage = 'unknown' } = group;
  const names = { shop: '', family, species, brought, sex, age, damage };
  return Object.entries(names).map(([kind, level]) => {
    const found = indexByName.get(`${kind}:${level}`);
    if (found === undefined) throw new ValidationError('yield.group', kind, { level });
    return found;
  });
}

/**
 * Which effects speak for which animal: one for the shop itself, and one each for its family, species, way of
 * bringing, sex, age and shot damage. An effect nobody has seen stays at its prior, with all its spread; a species
 * never seen still shares the shop's and its family's effects with its relatives (partial pooling).
 * Effects are counted in the species' own animal-to-animal spreads, so that elk and deer can share them.
 */
import { ValidationError } from '../values/validation-error.ts';
import type { AgeClass, Brought, Damage, Sex, SpeciesProfile } from '../species/species.ts';
import type { Split } from './tree.ts';
import type { Group } from './observation.ts';

/** One effect before anything is weighed: its middle, and its variance in squared spreads. */
export interface Column {
  readonly name: string;
  readonly priorMean: number;
  readonly variance: number;
  /** Prior probability that the stated prior is far too narrow (`yield-conflict.ts`); left out: never. */
  readonly robustWeight?: number;
}

/**
 * Between-shop and between-group variances as shares of the animal-to-animal variance. All are our own choice: no
 * source gives one. 0.12 says that shops differ by about a third of what animals in one shop differ by.
 */
const PRIOR_VARIANCE = { shop: 0.12, family: 0.06, brought: 0.06, sex: 0.08, age: 0.08, damage: 0.1 };

/**
 * How often a first guess is far off: one species in twenty, since most profiles rest on few animals, and one effect in
 * fifty. Our choice. What all animals of a shop or a family share is found out soon enough without.
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

/** All of them together, the species' own apart. */
const SHARED_VARIANCE = Object.values(PRIOR_VARIANCE).reduce((total, variance) => total + variance, 0);

/**
 * A profile's spread is that of single animals whatever the shop. Within one shop and one kind it is smaller by this
 * factor, since differences between shops and kinds are part of it; `animals` is what the profile's mean counts for.
 */
export function withinShopFactor(animals: number): number {
  return 1 / Math.sqrt(1 + SHARED_VARIANCE + 1 / animals);
}

const BROUGHT: readonly Brought[] = ['whole', 'skinned', 'quarters', 'primals', 'boned'];
const SEXES: readonly Sex[] = ['male', 'female', 'unknown'];
const AGES: readonly AgeClass[] = ['young', 'yearling', 'adult', 'unknown'];
const DAMAGES: readonly Damage[] = ['none', 'some', 'heavy', 'unknown'];

/**
 * Where shot damage is expected to move a split, in spreads. Shops commonly see about 5 points of take-home between
 * a clean animal and one shot through shoulder or ham (common practice, no source).
 */
const DAMAGE_PRIOR_MEANS: Readonly<Partial<Record<Split, Readonly<Record<Damage, number>>>>> = {
  takeHome: { none: 0.3, some: 0, heavy: -0.8, unknown: 0 },
  damage: { none: -0.8, some: 0.2, heavy: 1, unknown: 0 },
};

/** The columns of one split, in the order that `placesOf` counts in. */
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

/** The places of the columns that speak for an animal of this kind. @throws ValidationError `yield.group` */
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

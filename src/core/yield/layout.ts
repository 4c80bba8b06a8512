/** The columns and priors of the yield model. They depend on the species profiles alone. */
import { ValidationError } from '../values/validation-error.ts';
import type { Sex, SpeciesProfile } from '../species/species.ts';
import { columnsOf, effectIndices, withinShopFactor, type Column } from './columns.ts';
import type { Group } from './observation.ts';
import { splitPriors, type SplitPrior } from './prior.ts';
import { SPLITS, type Base, type Split } from './tree.ts';

/** By species, base and sex, as `elk/carcass/female`. */
export type Priors = ReadonlyMap<string, Readonly<Record<Split, SplitPrior>>>;

export interface Layout {
  byCode: ReadonlyMap<string, SpeciesProfile>;
  priors: Priors;
  columns: (split: Split) => readonly Column[];
  columnIndexByName: ReadonlyMap<string, number>;
  columnIndices: (group: Required<Group>) => readonly number[];
}

const layouts = new WeakMap<readonly SpeciesProfile[], Layout>();

/** Cached by list of profiles: `predictionPath` fits many models in a row. */
export function layoutOf(profiles: readonly SpeciesProfile[]): Layout {
  let layout = layouts.get(profiles);
  if (!layout) layouts.set(profiles, (layout = createLayout(profiles)));
  return layout;
}

function createLayout(profiles: readonly SpeciesProfile[]): Layout {
  const byCode = new Map(profiles.map((profile) => [profile.code, profile]));
  const priors = new Map<string, Readonly<Record<Split, SplitPrior>>>();
  for (const profile of profiles)
    for (const base of ['carcass', 'quarters', 'boned'] as const)
      for (const sex of ['male', 'female', 'unknown'] as const)
        priors.set(`${profile.code}/${base}/${sex}`, scaledWithinShop(splitPriors(profile, base, sex)));
  const priorAnimals = (code: string, split: Split): number =>
    priorOf(priors, code, 'carcass')[split].animals;
  const columns = {} as Record<Split, readonly Column[]>;
  for (const split of SPLITS)
    columns[split] = columnsOf(split, profiles, (code) => priorAnimals(code, split));
  const columnIndexByName = new Map(columns.takeHome.map(({ name }, place) => [name, place]));
  const indicesByGroup = new WeakMap<Group, readonly number[]>();
  return {
    byCode,
    priors,
    columns: (split) => columns[split],
    columnIndexByName,
    columnIndices(group) {
      let columnIndices = indicesByGroup.get(group);
      if (!columnIndices)
        indicesByGroup.set(group, (columnIndices = columnIndicesOf(group, byCode, columnIndexByName)));
      return columnIndices;
    },
  };
}

/** Indices of the columns that apply to this kind. @throws ValidationError `yield.species-unknown`, `yield.group` */
export function columnIndicesOf(
  group: Group,
  profiles: ReadonlyMap<string, SpeciesProfile>,
  columnIndexByName: ReadonlyMap<string, number>,
): number[] {
  const profile = profiles.get(group.species);
  if (!profile) throw new ValidationError('yield.species-unknown', 'species', { species: group.species });
  return effectIndices(group, profile.family, columnIndexByName);
}

/** Standard units are the standard deviation within one shop and kind. */
function scaledWithinShop(priors: Readonly<Record<Split, SplitPrior>>): Record<Split, SplitPrior> {
  const within = ({ location, scale, animals }: SplitPrior): SplitPrior => ({
    location,
    scale: scale * withinShopFactor(animals),
    animals,
  });
  return Object.fromEntries(SPLITS.map((split) => [split, within(priors[split])])) as Record<
    Split,
    SplitPrior
  >;
}

/** @throws ValidationError `yield.species-unknown` */
export function priorOf(
  priors: Priors,
  species: string,
  base: Base,
  sex: Sex = 'unknown',
): Readonly<Record<Split, SplitPrior>> {
  const prior = priors.get(`${species}/${base}/${sex}`);
  if (!prior) throw new ValidationError('yield.species-unknown', 'species', { species });
  return prior;
}

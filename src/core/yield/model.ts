/** Joins profiles and sums to a model: one fit for each split, on the bone and boned apart. */
import { ValidationError } from '../values/validation-error.ts';
import type { SpeciesProfile } from '../species/species.ts';
import { fitSplit, type Fit, type GroupStatistics } from './fit.ts';
import { laidOut, priorOf, type Layout, type Priors } from './layout.ts';
import type { Group } from './observation.ts';
import type { Cell, YieldSums } from './sums.ts';
import { baseOf, SPLITS, type Base, type Split } from './tree.ts';

/** Carcasses and bone-in pieces teach each other; field-boned meat is another job and keeps its own shop effects. */
export type Pool = 'on the bone' | 'boned';

export interface YieldModel {
  readonly profiles: ReadonlyMap<string, SpeciesProfile>;
  readonly places: ReadonlyMap<string, number>;
  readonly priors: Priors;
  readonly fits: Readonly<Record<Pool, Readonly<Record<Split, Fit>>>>;
  /** The kinds of animal that were weighed, by pool: what damage has to do with the other splits is learned from them. */
  readonly cells: Readonly<Record<Pool, readonly Cell[]>>;
  /** Animals of the shop's own with a take-home weight, by species. */
  readonly animals: ReadonlyMap<string, number>;
}

/**
 * The model that follows from the species profiles and the shop's sums.
 * @throws ValidationError `yield.no-profiles`, `yield.species-unknown` (weighed, but no profile), `yield.group`, `yield.prior`
 */
export function modelFrom(profiles: readonly SpeciesProfile[], sums: YieldSums): YieldModel {
  if (profiles.length === 0) throw new ValidationError('yield.no-profiles', 'prior');
  const { byCode, priors, columns, places, spots } = laidOut(profiles);
  const cells = Object.values(sums);
  for (const { group } of cells)
    if (!byCode.has(group.species))
      throw new ValidationError('yield.species-unknown', 'species', { species: group.species });

  const cellsOf = (pool: Pool) => cells.filter((cell) => poolOf(cell.group) === pool);
  const fitOf = (pool: Pool, split: Split): Fit => {
    const heaps = cellsOf(pool)
      .map((cell) => heapOf(cell, split, priors, spots))
      .filter((heap) => heap !== null);
    return fitSplit(columns(split), heaps);
  };
  const fitsOf = (pool: Pool) => whenAsked((split) => fitOf(pool, split));
  return {
    profiles: byCode,
    places,
    priors,
    fits: { 'on the bone': fitsOf('on the bone'), boned: fitsOf('boned') },
    cells: { 'on the bone': cellsOf('on the bone'), boned: cellsOf('boned') },
    animals: countAnimals(cells),
  };
}

/** Each split is fitted when it is first asked for: what is believed of the take-home alone needs one fit of twelve. */
function whenAsked(fit: (split: Split) => Fit): Record<Split, Fit> {
  const kept: Partial<Record<Split, Fit>> = {};
  const fits = {} as Record<Split, Fit>;
  for (const split of SPLITS)
    Object.defineProperty(fits, split, { enumerable: true, get: () => (kept[split] ??= fit(split)) });
  return fits;
}

/** @throws ValidationError `yield.brought` */
export function needBase(group: Group): Base {
  const base = baseOf(group.brought);
  if (!base) throw new ValidationError('yield.brought', 'group.brought', { brought: group.brought });
  return base;
}

function heapOf(
  { group, splits }: Cell,
  split: Split,
  priors: Priors,
  spots: Layout['spots'],
): GroupStatistics | null {
  const seen = splits[split];
  if (!seen || seen.n === 0) return null;
  const { middle, spread } = priorOf(priors, group.species, needBase(group), group.sex)[split];
  const { n, sum, squares } = seen;
  return {
    places: spots(group),
    species: group.species,
    n,
    sum: (sum - n * middle) / spread,
    squares: (squares - 2 * middle * sum + n * middle * middle) / (spread * spread),
  };
}

export function poolOf(group: Group): Pool {
  return needBase(group) === 'boned' ? 'boned' : 'on the bone';
}

function countAnimals(cells: readonly Cell[]): Map<string, number> {
  const animals = new Map<string, number>();
  for (const { group, splits } of cells)
    animals.set(group.species, (animals.get(group.species) ?? 0) + (splits.takeHome?.n ?? 0));
  return animals;
}

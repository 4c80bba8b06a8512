/** Builds the model from profiles and sums: one fit per split, separately on the bone and boned. */
import { ValidationError } from '../values/validation-error.ts';
import type { SpeciesProfile } from '../species/species.ts';
import { fitSplit, type Fit, type GroupStatistics } from './fit.ts';
import { fitAmongShops } from './fit-among.ts';
import { layoutOf, priorOf, type Priors } from './layout.ts';
import type { YieldLesson } from './lessons.ts';
import { poolOf, requireBase, type Pool } from './pool.ts';
import type { SplitPrior } from './prior.ts';
import { siblingGuesses } from './siblings.ts';
import type { Cell, YieldSums } from './sums.ts';
import { SPLITS, type Split } from './tree.ts';

export interface YieldModel {
  readonly profiles: ReadonlyMap<string, SpeciesProfile>;
  readonly columnIndexByName: ReadonlyMap<string, number>;
  readonly priors: Priors;
  readonly fits: Readonly<Record<Pool, Readonly<Record<Split, Fit>>>>;
  /** The sums by kind of animal and pool, from which the damage correlations are learned. */
  readonly cells: Readonly<Record<Pool, readonly Cell[]>>;
  /** Animals of the shop's own with a take-home weight, by species. */
  readonly animals: ReadonlyMap<string, number>;
}

/**
 * The model that follows from the species profiles and the shop's sums.
 * @param shops what other shops teach, one list for each; without any the shop's own animals decide alone
 * @throws ValidationError `yield.no-profiles`, `yield.species-unknown` (weighed, but no profile), `yield.group`, `yield.prior`
 */
export function modelFrom(
  profiles: readonly SpeciesProfile[],
  sums: YieldSums,
  shops: readonly (readonly YieldLesson[])[] = [],
): YieldModel {
  if (profiles.length === 0) throw new ValidationError('yield.no-profiles', 'prior');
  const { byCode, priors, columns, columnIndexByName, columnIndices } = layoutOf(profiles);
  const cells = Object.values(sums);
  for (const { group } of cells)
    if (!byCode.has(group.species))
      throw new ValidationError('yield.species-unknown', 'species', { species: group.species });

  const pools: Record<Pool, Kind[]> = { 'on the bone': [], boned: [] };
  for (const cell of cells) {
    const base = requireBase(cell.group);
    const { species, sex } = cell.group;
    const kind = {
      cell,
      columnIndices: columnIndices(cell.group),
      prior: priorOf(priors, species, base, sex),
    };
    pools[poolOf(cell.group)].push(kind);
  }
  const fitsOf = (pool: Pool) =>
    lazyFits((split) => {
      const groups = pools[pool]
        .map((kind) => groupStatisticsOf(kind, split))
        .filter((group) => group !== null);
      const guesses = siblingGuesses(profiles, shops, pool, split);
      return guesses ? fitAmongShops(columns(split), groups, guesses) : fitSplit(columns(split), groups);
    });
  const cellsOf = (pool: Pool) => pools[pool].map(({ cell }) => cell);
  return {
    profiles: byCode,
    columnIndexByName,
    priors,
    fits: { 'on the bone': fitsOf('on the bone'), boned: fitsOf('boned') },
    cells: { 'on the bone': cellsOf('on the bone'), boned: cellsOf('boned') },
    animals: countAnimals(cells),
  };
}

/** The sums of one kind of animal, and what its profile and group say of it. */
interface Kind {
  readonly cell: Cell;
  readonly columnIndices: readonly number[];
  readonly prior: Readonly<Record<Split, SplitPrior>>;
}

/** Fits each split on first access: a take-home prediction needs one fit of twelve. */
function lazyFits(fit: (split: Split) => Fit): Record<Split, Fit> {
  const cache: Partial<Record<Split, Fit>> = {};
  const fits = {} as Record<Split, Fit>;
  for (const split of SPLITS)
    Object.defineProperty(fits, split, { enumerable: true, get: () => (cache[split] ??= fit(split)) });
  return fits;
}

function groupStatisticsOf(
  { cell: { group, splits }, columnIndices, prior }: Kind,
  split: Split,
): GroupStatistics | null {
  const observed = splits[split];
  if (!observed || observed.n === 0) return null;
  const { location, scale } = prior[split];
  const { n, sum, squares } = observed;
  return {
    columnIndices,
    species: group.species,
    n,
    sum: (sum - n * location) / scale,
    squares: (squares - 2 * location * sum + n * location * location) / (scale * scale),
  };
}

function countAnimals(cells: readonly Cell[]): Map<string, number> {
  const animals = new Map<string, number>();
  for (const { group, splits } of cells)
    animals.set(group.species, (animals.get(group.species) ?? 0) + (splits.takeHome?.n ?? 0));
  return animals;
}

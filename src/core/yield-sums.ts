/**
 * Boils weighed animals down to sums: for each kind of animal and each split a count, a sum and a sum of squares of
 * the logit shares. The model needs nothing else, so sums can be kept, added to, and learned from at once.
 */
import { CoreProblem } from './problem.ts';
import { eachShare, type Group, type YieldObservation } from './yield-observation.ts';
import { baseOf, logitOf, SPLITS, type Split } from './yield-tree.ts';

export interface SplitSums {
  n: number;
  sum: number;
  squares: number;
}

export interface Cell {
  readonly group: Required<Group>;
  readonly splits: Partial<Record<Split, SplitSums>>;
}

/** Plain data: may be stored as JSON. */
export type YieldSums = Readonly<Record<string, Cell>>;

/** Sums over all observations in one pass. @throws CoreProblem as `observe`, the field begun with `observations[i].` */
export function gather(observations: readonly YieldObservation[]): YieldSums {
  const cells: Record<string, Cell> = {};
  observations.forEach((observation, i) => {
    try {
      addTo(cells, observation);
    } catch (problem) {
      if (!(problem instanceof CoreProblem)) throw problem;
      throw new CoreProblem(problem.code, `observations[${i}].${problem.field}`, problem.with);
    }
  });
  return cells;
}

/**
 * Adds one more animal to cells that nobody else holds: a pass over 100,000 animals copies nothing.
 * @throws CoreProblem as `observe`
 */
export function addTo(cells: Record<string, Cell>, observation: YieldObservation): void {
  const [key, cell] = cellOf(cells, observation.group);
  eachShare(observation, (split, share) => addShare(cell.splits, split, share));
  cells[key] = cell;
}

/**
 * The sums with one more animal; the given sums are left as they are.
 * @throws CoreProblem `yield.weight` (not finite, negative, hanging not above 0), `yield.parts-exceed` (more than 2 %
 *   over their whole), `yield.brought` (not a way of bringing), `yield.species-needed`
 */
export function observe(sums: YieldSums, observation: YieldObservation): YieldSums {
  const [key, cell] = cellOf(sums, observation.group);
  const splits = structuredClone(cell.splits);
  eachShare(observation, (split, share) => addShare(splits, split, share));
  return { ...sums, [key]: { group: cell.group, splits } };
}

/**
 * The sums as they would be without one of the animals in them; the given sums are left as they are.
 * @throws CoreProblem as `observe`
 * @example without(observe(sums, elk), elk) // the sums again, but for rounding
 */
export function without(sums: YieldSums, observation: YieldObservation): YieldSums {
  const left = { ...sums };
  for (const [key, { group, splits: own }] of Object.entries(gather([observation]))) {
    const splits = { ...sums[key]?.splits };
    for (const split of SPLITS) {
      const [all, one] = [splits[split], own[split]];
      if (!all || !one) continue;
      if (all.n === one.n) delete splits[split];
      else splits[split] = { n: all.n - one.n, sum: all.sum - one.sum, squares: all.squares - one.squares };
    }
    left[key] = { group, splits };
  }
  return left;
}

/** The sums of two lots of animals together; the given sums are left as they are. */
export function together(a: YieldSums, b: YieldSums): YieldSums {
  const all: Record<string, Cell> = { ...a };
  for (const [key, { group, splits }] of Object.entries(b)) {
    const joined = { ...all[key]?.splits };
    for (const split of SPLITS) {
      const [one, other] = [joined[split] ?? NOTHING, splits[split]];
      if (!other) continue;
      joined[split] = {
        n: one.n + other.n,
        sum: one.sum + other.sum,
        squares: one.squares + other.squares,
      };
    }
    all[key] = { group, splits: joined };
  }
  return all;
}

const NOTHING: Readonly<SplitSums> = { n: 0, sum: 0, squares: 0 };

function addShare(splits: Partial<Record<Split, SplitSums>>, split: Split, share: number): void {
  const y = logitOf(share);
  const sums = (splits[split] ??= { ...NOTHING });
  sums.n += 1;
  sums.sum += y;
  sums.squares += y * y;
}

/** The cell of this kind of animal, new and empty where there is none yet. */
function cellOf(cells: YieldSums, kind: Group): [string, Cell] {
  const { species, brought, sex = 'unknown', age = 'unknown', damage = 'unknown' } = kind;
  if (species === '') throw new CoreProblem('yield.species-needed', 'group.species');
  if (!baseOf(brought)) throw new CoreProblem('yield.brought', 'group.brought', { brought });
  const key = `${species}/${brought}/${sex}/${age}/${damage}`;
  return [key, cells[key] ?? { group: { species, brought, sex, age, damage }, splits: {} }];
}

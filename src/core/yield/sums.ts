/**
 * Summarises weighed animals by sufficient statistics: for each kind of animal and split a count, a sum and a sum of
 * squares of the logit shares. The model needs nothing else, so sums can be stored and updated.
 */
import { ValidationError } from '../values/validation-error.ts';
import { forEachShare, type Group, type YieldObservation } from './observation.ts';
import { baseOf, logit, type Split } from './tree.ts';

export type SplitSums = {
  /** Animals without any damage; they are in no other sum here. 0 for all other splits. */
  none: number;
  n: number;
  sum: number;
  squares: number;
};

/** The splits that may correlate with damage. */
export const PAIRED_SPLITS = ['takeHome', 'bone', 'sinew'] as const satisfies readonly Split[];
export type PairedSplit = (typeof PAIRED_SPLITS)[number];

/** One split of the animals whose damage is known as well: x is its logit, y that of the damage. */
export type PairSums = {
  /** Animals without damage: their number, sum of x and of its square. */
  clean: number;
  cleanX: number;
  cleanXX: number;
  /** Animals with damage. */
  some: number;
  x: number;
  y: number;
  xx: number;
  yy: number;
  xy: number;
};

export interface Cell {
  readonly group: Required<Group>;
  readonly splits: Partial<Record<Split, SplitSums>>;
  readonly pairs: Partial<Record<PairedSplit, PairSums>>;
}

/** Plain data: may be stored as JSON. */
export type YieldSums = Readonly<Record<string, Cell>>;

/** Sums over all observations in one pass. @throws ValidationError as `addObservation`, the field prefixed with `observations[i].` */
export function summarise(observations: readonly YieldObservation[]): YieldSums {
  const cells: Record<string, Cell> = {};
  observations.forEach((observation, i) => {
    try {
      accumulate(cells, observation);
    } catch (problem) {
      if (!(problem instanceof ValidationError)) throw problem;
      throw new ValidationError(problem.code, `observations[${i}].${problem.field}`, problem.with);
    }
  });
  return cells;
}

/**
 * Adds one animal in place, so that a pass over 100,000 animals copies nothing.
 * @throws ValidationError as `addObservation`
 */
export function accumulate(cells: Record<string, Cell>, observation: YieldObservation): void {
  const [key, cell] = cellOf(cells, observation.group);
  addAnimal(cell, observation);
  cells[key] = cell;
}

/**
 * The sums with one more animal; the given sums do not change.
 * @throws ValidationError `yield.weight` (not finite, negative, hanging not above 0), `yield.parts-exceed` (more than 2 %
 *   over their whole), `yield.brought` (not a way of bringing), `yield.species-needed`
 */
export function addObservation(sums: YieldSums, observation: YieldObservation): YieldSums {
  const [key, cell] = cellOf(sums, observation.group);
  const { group, splits, pairs } = cell;
  const more: Cell = { group, ...structuredClone({ splits, pairs }) };
  addAnimal(more, observation);
  return { ...sums, [key]: more };
}

/**
 * The sums without one of their animals; the given sums do not change.
 * @throws ValidationError as `addObservation`
 * @example removeObservation(addObservation(sums, elk), elk) // the sums again, up to rounding
 */
export function removeObservation(sums: YieldSums, observation: YieldObservation): YieldSums {
  const left = { ...sums };
  for (const [key, { group, splits, pairs }] of Object.entries(summarise([observation]))) {
    const all = sums[key];
    left[key] = {
      group,
      splits: combine(all?.splits, splits, -1, ({ none, n }) => none + n > 0),
      pairs: combine(all?.pairs, pairs, -1, ({ clean, some }) => clean + some > 0),
    };
  }
  return left;
}

/** The sums of two sets of animals; the given sums do not change. */
export function mergeSums(a: YieldSums, b: YieldSums): YieldSums {
  const all: Record<string, Cell> = { ...a };
  for (const [key, { group, splits, pairs }] of Object.entries(b)) {
    const one = all[key];
    all[key] = { group, splits: combine(one?.splits, splits, 1), pairs: combine(one?.pairs, pairs, 1) };
  }
  return all;
}

/** `all` plus `times` every sum of `more`; entries that are not `wanted` afterwards are dropped. */
function combine<K extends string, F extends string>(
  all: Partial<Record<K, Record<F, number>>> = {},
  more: Partial<Record<K, Record<F, number>>>,
  times: 1 | -1,
  keep: (sums: Record<F, number>) => boolean = () => true,
): Partial<Record<K, Record<F, number>>> {
  const both = { ...all };
  for (const key of Object.keys(more) as K[]) {
    const [one, other] = [all[key], more[key]];
    if (!other || (!one && times < 0)) continue;
    const sums = { ...other };
    for (const field of Object.keys(other) as F[]) sums[field] = (one?.[field] ?? 0) + times * other[field];
    if (keep(sums)) both[key] = sums;
    else delete both[key];
  }
  return both;
}

const PAIRED: ReadonlySet<Split> = new Set(PAIRED_SPLITS);

function addAnimal({ splits, pairs }: Cell, observation: YieldObservation): void {
  const pairedLogits: [PairedSplit, number][] = [];
  forEachShare(observation, (split, share) => {
    const y = logit(share);
    const sums = (splits[split] ??= { none: 0, n: 0, sum: 0, squares: 0 });
    if (split === 'damage')
      for (const [other, x] of pairedLogits) addPair(pairs, other, x, share === 0 ? null : y);
    else if (PAIRED.has(split)) pairedLogits.push([split as PairedSplit, y]);
    if (split === 'damage' && share === 0) {
      sums.none += 1;
      return;
    }
    sums.n += 1;
    sums.sum += y;
    sums.squares += y * y;
  });
}

/** @param y the logit of the damage; null where there was none */
function addPair(pairs: Cell['pairs'], split: PairedSplit, x: number, y: number | null): void {
  const sums = (pairs[split] ??= {
    clean: 0, cleanX: 0, cleanXX: 0, some: 0, x: 0, y: 0, xx: 0, yy: 0, xy: 0,
  }); // prettier-ignore
  if (y === null) {
    sums.clean += 1;
    sums.cleanX += x;
    sums.cleanXX += x * x;
    return;
  }
  sums.some += 1;
  sums.x += x;
  sums.y += y;
  sums.xx += x * x;
  sums.yy += y * y;
  sums.xy += x * y;
}

/** The cell of this kind of animal, created empty if missing. */
function cellOf(cells: YieldSums, kind: Group): [string, Cell] {
  const { species, brought, sex = 'unknown', age = 'unknown', damage = 'unknown' } = kind;
  if (species === '') throw new ValidationError('yield.species-needed', 'group.species');
  if (!baseOf(brought)) throw new ValidationError('yield.brought', 'group.brought', { brought });
  const key = `${species}/${brought}/${sex}/${age}/${damage}`;
  return [key, cells[key] ?? { group: { species, brought, sex, age, damage }, splits: {}, pairs: {} }];
}

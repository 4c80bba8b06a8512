/**
 * Boils weighed animals down to sums: for each kind of animal and each split a count, a sum and a sum of squares of
 * the logit shares. The model needs nothing else, so sums can be kept, added to, and learned from at once.
 */
import { CoreProblem } from './problem.ts';
import type { AgeClass, Brought, Damage, Sex } from './species.ts';
import { baseOf, logitOf, type Part, type Split } from './yield-tree.ts';

/** What kind of animal; what is not said counts as `unknown`. */
export interface Group {
  readonly species: string;
  readonly brought: Brought;
  readonly sex?: Sex;
  readonly age?: AgeClass;
  readonly damage?: Damage;
}

/** One animal as far as it was weighed, in grams. Take-home holds saved own fat but no fat added from elsewhere. */
export interface YieldObservation {
  /** Hanging weight; for quarters, primals and boned meat the weight received. */
  readonly hangingGrams: number;
  readonly takeHomeGrams?: number;
  readonly parts?: Readonly<Partial<Record<Exclude<Part, 'meat' | 'takeHome' | 'loss'>, number>>>;
  readonly group: Group;
}

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

/** Parts may outweigh their whole by this share of it (two readings, rounding); then they count as all of it. */
const SLACK = 0.02;
/** Of a whole smaller than this share of the animal nothing is learned: the scale's step would speak, not the meat. */
const LEAST_WHOLE = 0.005;

/** Sums over all observations in one pass. @throws CoreProblem as `observe`, the field begun with `observations[i].` */
export function gather(observations: readonly YieldObservation[]): YieldSums {
  const cells: Record<string, Cell> = {};
  for (const [i, observation] of observations.entries()) {
    const at = `observations[${i}].`;
    const [key, cell] = cellOf(cells, observation.group, at);
    // Only cells made here are written to: the pass over 100,000 animals copies nothing.
    for (const [split, share] of sharesOf(observation, at)) addShare(cell.splits, split, share);
    cells[key] = cell;
  }
  return cells;
}

/**
 * The sums with one more animal; the given sums are left as they are.
 * @throws CoreProblem `yield.weight` (not finite, negative, hanging not above 0), `yield.parts-exceed` (more than 2 %
 *   over their whole), `yield.brought` (not a way of bringing), `yield.species-needed`
 */
export function observe(sums: YieldSums, observation: YieldObservation): YieldSums {
  const [key, cell] = cellOf(sums, observation.group, '');
  const splits: Partial<Record<Split, SplitSums>> = { ...cell.splits };
  for (const [split, share] of sharesOf(observation, '')) {
    splits[split] = { ...(splits[split] ?? NOTHING) };
    addShare(splits, split, share);
  }
  return { ...sums, [key]: { group: cell.group, splits } };
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
function cellOf(cells: YieldSums, kind: Group, at: string): [string, Cell] {
  const { species, brought, sex = 'unknown', age = 'unknown', damage = 'unknown' } = kind;
  if (species === '') throw new CoreProblem('yield.species-needed', `${at}group.species`);
  if (!baseOf(brought)) throw new CoreProblem('yield.brought', `${at}group.brought`, { brought });
  const key = `${species}/${brought}/${sex}/${age}/${damage}`;
  return [key, cells[key] ?? { group: { species, brought, sex, age, damage }, splits: {} }];
}

/** The shares that this animal was weighed far enough to tell. */
function sharesOf(observation: YieldObservation, at: string): [Split, number][] {
  const hanging = observation.hangingGrams;
  if (!(hanging > 0 && Number.isFinite(hanging))) throw new CoreProblem('yield.weight', `${at}hangingGrams`);
  const parts = observation.parts ?? {};
  const takeHome = weight(observation.takeHomeGrams, at, 'takeHomeGrams');
  const [cuts, trim] = [weight(parts.wholeCuts, at, 'parts.wholeCuts'), weight(parts.trim, at, 'parts.trim')];
  const fat = weight(parts.fatSaved, at, 'parts.fatSaved');
  const [bone, sinew] = [weight(parts.bone, at, 'parts.bone'), weight(parts.sinew, at, 'parts.sinew')];
  const [damage, shrink] = [
    weight(parts.damage, at, 'parts.damage'),
    weight(parts.shrink, at, 'parts.shrink'),
  ];

  const known: [Split, number][] = [];
  const learn = (split: Split, part: number | null, whole: number | null): void => {
    if (part === null || whole === null) return;
    if (part - whole > SLACK * hanging) throw new CoreProblem('yield.parts-exceed', `${at}${split}`);
    if (whole >= LEAST_WHOLE * hanging) known.push([split, Math.min(1, part / whole)]);
  };
  learn('takeHome', takeHome, hanging);
  learn('fatSaved', fat, takeHome);
  learn('wholeCuts', cuts, cuts === null || trim === null ? null : cuts + trim);
  const loss = takeHome === null ? null : Math.max(0, hanging - takeHome);
  const boned = observation.group.brought === 'boned';
  if (!boned) learn('bone', bone, loss);
  const afterBone = less(loss, boned ? 0 : bone);
  learn('sinew', sinew, afterBone);
  const last = less(afterBone, sinew);
  learn('damage', damage ?? (shrink === null ? null : less(last, shrink)), last);
  return known;
}

function weight(grams: number | undefined, at: string, field: string): number | null {
  if (grams === undefined) return null;
  if (!(grams >= 0 && Number.isFinite(grams))) throw new CoreProblem('yield.weight', at + field);
  return grams;
}

function less(whole: number | null, part: number | null): number | null {
  return whole === null || part === null ? null : Math.max(0, whole - part);
}

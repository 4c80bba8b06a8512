/** Likelihood of one animal's weights, given each other and the species, as entered or with one weight changed. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { StandingWeight, WeightSums } from '../../book/records/weighings.ts';
import { reconcile } from '../../core/balance/balance.ts';
import type { Change } from '../../core/balance/explain.ts';
import { SHARE_PARTS, type SharePart } from '../../core/balance/part-shares.ts';
import type { PartWeighed } from '../../core/balance/part-shares.ts';
import { shareFit } from '../../core/balance/share-fit.ts';
import type { ShareModel } from '../../core/balance/share-model.ts';
import { readingGrams } from '../../core/values/reading.ts';
import type { SpeciesProfile } from '../../core/species/species.ts';
import { dressedToHanging } from '../../core/yield/convert.ts';
import { flowOf, type BalanceRow } from './balance-flow.ts';
import { hookFlows } from './hook-flows.ts';
import type { HookShrink } from '../learning/hook-shrink.ts';
import { primalFlows } from './primal-flows.ts';
import { primalsOf } from '../animal/primals.ts';
import { baseGrams } from '../learning/take-home.ts';
import { isWholeCarcass } from '../../trade/animal.ts';

export interface AnimalWeights {
  species: SpeciesProfile;
  animal: AnimalRow;
  /** The primals that came in. */
  brought: readonly { primal: string; count: number }[];
  /** Weighings without voided ones, see `balanceRows`. */
  rows: readonly BalanceRow[];
  /** Parts stated as none. */
  none: readonly string[];
  shares: ShareModel;
  /** More weights may follow. */
  going: boolean;
  shrink: HookShrink;
}

/** SD of the logarithm of carcass weights within a species. Assumption. */
const HANGING_LOG_SD = 0.4;
/**
 * Log-likelihood of a carcass outside the limits of its species; saving such a weight already needed a confirmation.
 */
const IMPOSSIBLE = -8;
/**
 * Penalty for a change that leaves a part unknown, since an unknown part fits anything: the usual ratio of a part's
 * SD to its range, or for a removed weight the probability that its part was never weighed otherwise.
 */
const LOST = { unknown: Math.log(0.15), removed: Math.log(0.02) } as const;
/** SD of the logarithm of a container's content, below half of its part. Assumption. */
const TOTE_LOG_SD = 0.7;
const PART_OF: Readonly<Record<string, SharePart>> = {
  'whole cuts': 'meat',
  trim: 'meat',
  package: 'meat',
  'fat saved': 'fatSaved',
  sinew: 'sinew',
  bone: 'bone',
  damage: 'damage',
};

/**
 * The log-likelihood of all weights of the animal, 0 if everything is typical: received against hanging weight,
 * primals against the carcass (`reconcile`), and parts against the carcass and the species (`shareFit`).
 */
export function animalFit(weights: AnimalWeights): (change?: Change) => number {
  const table = shareFit(weights.shares);
  const solved = new Map<string, HookFit>();
  const hookOf = (rows: readonly BalanceRow[], base: number): HookFit => {
    const onHook = rows.filter(({ stage }) => !isOfTable(stage));
    const key = onHook.map(({ id, grams }) => `${id}:${grams}`).join();
    let found = solved.get(key);
    if (!found) solved.set(key, (found = hookFit(weights, onHook, base)));
    return found;
  };
  return (change) => {
    const rows = changed(weights.rows, change);
    const base = baseOf(weights, rows, change);
    if (base === null) return change ? -Infinity : 0;
    const quick = change && ofOnePrimal(weights, change, () => hookOf(weights.rows, base));
    const hook = quick ?? hookOf(rows, base).log;
    const parts = partsOf(weights, rows, base, change);
    const lost =
      change && change.as !== 'weight' && losesItsPart(weights.rows, change.id) ? LOST[change.as] : 0;
    return hook + table(parts) + lost + toteSize(weights, change, base);
  };
}

interface HookFit {
  log: number;
  /** What the other weights predict for each reading, in grams, with the SD of the residual. */
  expected: Map<string, { grams: number; sd: number }>;
}

/**
 * The fit with one primal's weight changed, derived from the reconciliation as entered: the least sum of squares is
 * quadratic in a reading, with its minimum at the predicted value. Solving the graph for each of hundreds of
 * candidates would take a quarter of a second. Null if the graph itself would change: a light primal may be one side
 * of a pair while cutting goes on.
 */
function ofOnePrimal({ rows, going }: AnimalWeights, change: Change, entered: () => HookFit): number | null {
  const row = rows.find(({ id }) => `${id}` === change.id);
  if (change.as !== 'weight' || row?.stage !== 'primal' || (going && change.grams < row.grams)) return null;
  const { log, expected } = entered();
  const should = expected.get(change.id);
  if (!should) return null;
  const squared = (grams: number): number => ((grams - should.grams) / should.sd) ** 2;
  return log + (squared(row.grams) - squared(change.grams)) / 2;
}

const isOfTable = (stage: string): boolean => stage === 'cut' || stage === 'packed';

/**
 * While more weights may follow, any light weight fits. A container usually holds a good part of what there is, so an
 * intended weight is not expected to be far below half of its part's usual amount.
 */
function toteSize(
  { rows, going, shares, species }: AnimalWeights,
  change: Change | undefined,
  base: number,
): number {
  if (!going || change?.as !== 'weight') return 0;
  const row = rows.find(({ id }) => `${id}` === change.id);
  if (!row || (row.stage !== 'primal' && !isOfTable(row.stage))) return 0;
  const part = PART_OF[row.part];
  const usual =
    row.stage === 'primal'
      ? species.primals.find(({ code }) => code === row.primal)?.share
      : part && shares.mean[SHARE_PARTS.indexOf(part)];
  const below = Math.log((usual ?? 0) * base * 0.5) - Math.log(change.grams);
  return -(Math.max(0, below / TOTE_LOG_SD) ** 2) / 2;
}

function changed(rows: readonly BalanceRow[], change: Change | undefined): readonly BalanceRow[] {
  if (!change) return rows;
  if (change.as !== 'weight') return rows.filter(({ id }) => `${id}` !== change.id);
  return rows.map((row) => (`${row.id}` === change.id ? { ...row, grams: change.grams } : row));
}

/** Whether nothing is known of the part without this weight. */
function losesItsPart(rows: readonly BalanceRow[], id: string): boolean {
  const row = rows.find((one) => `${one.id}` === id);
  return (
    row === undefined ||
    !rows.some(
      (one) =>
        one !== row &&
        one.stage === row.stage &&
        (row.stage === 'primal' ? one.primal === row.primal : PART_OF[one.part] === PART_OF[row.part]),
    )
  );
}

/** The base of the parts' shares. If the carcass weight is in doubt, the parts predict it. */
function baseOf(
  { species, animal, shares, going }: AnimalWeights,
  rows: readonly BalanceRow[],
  change: Change | undefined,
): number | null {
  const [hanging, received] = [sumOf(rows, 'hanging'), sumOf(rows, 'received')];
  const base = baseGrams({ brought: animal.brought, hanging, received });
  if (base !== null) return base;
  if (received !== null) return received * dressedToHanging(species.ratios, animal).mean;
  if (change?.as !== 'unknown' || going) return null;
  const cut = rows.filter(({ stage }) => isOfTable(stage));
  const weighed = new Set(cut.map(({ part }) => PART_OF[part] ?? 'meat'));
  const share = SHARE_PARTS.reduce(
    (total, part, i) => total + (weighed.has(part) ? (shares.mean[i] ?? 0) : 0),
    0,
  );
  return share > 0 ? cut.reduce((total, { grams }) => total + grams, 0) / share : null;
}

function hookFit(
  { species, animal, brought, going, shrink }: AnimalWeights,
  rows: readonly BalanceRow[],
  base: number,
): HookFit {
  const { chiSquare, expected } = agreement({ species, animal, brought, going, shrink }, rows, base);
  const whole = isWholeCarcass(animal.brought);
  const { least, typical, most } = species.hangingGrams;
  const size = whole ? Math.log(base / typical) / HANGING_LOG_SD : 0;
  const impossible = whole && (base < least || base > most) ? IMPOSSIBLE : 0;
  return { log: impossible - (chiSquare + size * size) / 2, expected };
}

/** How well the weights before the Table agree with each other. One carcass weight alone contradicts nothing. */
function agreement(
  {
    species,
    animal,
    brought,
    going,
    shrink,
  }: Pick<AnimalWeights, 'species' | 'animal' | 'brought' | 'going' | 'shrink'>,
  rows: readonly BalanceRow[],
  base: number,
): { chiSquare: number; expected: HookFit['expected'] } {
  const hasPrimals = rows.some(({ stage }) => stage === 'primal');
  if (rows.length <= 1 && !hasPrimals) return { chiSquare: 0, expected: new Map() };
  const block = hasPrimals
    ? primalFlows(primalsOf(species, brought), rows, base, going)
    : { flows: [], nodes: [] };
  const received = sumOf(rows, 'received');
  const flows = [
    ...hookFlows(species, animal, rows, { received }, shrink, hasPrimals ? 'block' : 'table'),
    ...block.flows,
  ];
  const nodes = ['hook', ...block.nodes, 'table'].filter((node) =>
    flows.some(({ from, to }) => from === node || to === node),
  );
  const { chiSquare, flows: reconciled } = reconcile({ flows, nodes });
  const expected = new Map(
    reconciled.flatMap(({ id, adjusted, z }, i) => {
      const { grams, sd } = flows[i] ?? {};
      if (grams === undefined || grams === null || !sd || !z || !adjusted) return [];
      // The adjustment is sd² / s² of the distance to the predicted value, where s is the SD of that distance; z =
      // distance / s.
      const distance = (sd * z) ** 2 / adjusted;
      return [[id, { grams: grams + distance, sd: Math.abs(distance / z) }] as const];
    }),
  );
  return { chiSquare, expected };
}

function partsOf(
  { rows: all, none, going }: AnimalWeights,
  rows: readonly BalanceRow[],
  base: number,
  change: Change | undefined,
): Partial<Record<SharePart, PartWeighed>> {
  const cut = rows.filter(({ stage }) => isOfTable(stage));
  const parts: Partial<Record<SharePart, PartWeighed>> = {};
  for (const row of cut) {
    const part = PART_OF[row.part] ?? 'meat';
    const { share = 0, sd = 0 } = parts[part] ?? {};
    const reading = (flowOf(row, null, null).sd ?? 0) / base;
    parts[part] = { share: share + row.grams / base, sd: Math.hypot(sd, reading), open: going };
  }
  for (const part of none.map((name) => PART_OF[name]))
    if (part) parts[part] ??= { share: 0, sd: 0, open: false };
  // Trim alone is not all the meat: there are unweighed whole cuts too.
  const trimOnly = !cut.some(({ part }) => part === 'whole cuts' || part === 'package');
  if (trimOnly && parts.meat) parts.meat = { ...parts.meat, open: true };
  const doubted = change?.as === 'unknown' ? all.find(({ id }) => `${id}` === change.id) : undefined;
  const part = doubted && isOfTable(doubted.stage) ? parts[PART_OF[doubted.part] ?? 'meat'] : undefined;
  if (doubted && part) parts[PART_OF[doubted.part] ?? 'meat'] = { ...part, open: true };
  return parts;
}

function sumOf(rows: readonly BalanceRow[], stage: string): number | null {
  const some = rows.filter((row) => row.stage === stage);
  return some.length > 0 ? some.reduce((total, { grams }) => total + grams, 0) : null;
}

/**
 * The weighings that the balance uses. Packages count only if whole cuts were not weighed otherwise and the trim went
 * through a batch: then the packages are the whole cuts.
 */
export function balanceRows(weighings: readonly StandingWeight[], sums: WeightSums): BalanceRow[] {
  const packages = sums.whole_cuts === null && sums.trim_ground > 0;
  return weighings
    .filter(
      ({ stage, void_at }) =>
        void_at === null && (STAGES.includes(stage) || (stage === 'packed' && packages)),
    )
    .map((row) => ({ ...row, tareGrams: readingGrams(row) - row.grams }));
}
const STAGES: readonly string[] = ['received', 'hanging', 'primal', 'cut'];

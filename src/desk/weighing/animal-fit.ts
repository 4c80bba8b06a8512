/** How well the weights of one animal fit together and fit its kind, as entered or with one of them changed. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { WeighingRecord, WeightSums } from '../../book/records/weighings.ts';
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
  /** Weighings that count, see `balanceRows`. */
  rows: readonly BalanceRow[];
  /** Parts that somebody stated there are none of. */
  none: readonly string[];
  shares: ShareModel;
  /** More may still be weighed. */
  going: boolean;
  shrink: HookShrink;
}

/** Carcasses of one kind differ by about so much (standard deviation of the logarithm). Assumption. */
const HANGING_LOG_SD = 0.4;
/** Beyond the limits of its kind no carcass is, and somebody who keeps one there has been asked. */
const IMPOSSIBLE = -8;
/**
 * A change after which nothing is known of a part explains anything, so it explains little: the usual ratio of a part's
 * spread to its range, and for a weight that is taken out the chance that its own part was never weighed besides.
 */
const LOST = { unknown: Math.log(0.15), removed: Math.log(0.02) } as const;
/** Spread of the logarithm of what a container holds, below half of its part. Assumption. */
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
 * The logarithm of the likelihood of all weights of the animal, 0 where everything is just as usual: what came in against
 * what hangs, primals against the carcass (`reconcile`), and the parts against the carcass and their kind (`shareFit`).
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
  /** What the others say that each reading should be, in grams, with the standard deviation of its distance from that. */
  expected: Map<string, { grams: number; sd: number }>;
}

/**
 * The fit with one primal's weight changed, from the reconciliation as entered: the least sum of squares is quadratic in a
 * reading, with its minimum at what the others say. Solving the graph anew for each of hundreds of slips would take a
 * quarter of a second. Null where the graph itself would change: a light primal may be one side of two while cutting goes on.
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
 * While more may come, any light weight fits. A container is mostly filled with a good part of what there is, so a
 * weight that was meant is not expected to be far below half of its part's usual amount.
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

/** Whether without this weight nothing is known of its part. */
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

/** What the parts are shares of. Where the carcass is the weight in doubt, the parts say what it should be. */
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
  const hasPrimals = rows.some(({ stage }) => stage === 'primal');
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
  const whole = isWholeCarcass(animal.brought);
  const { least, typical, most } = species.hangingGrams;
  const size = whole ? Math.log(base / typical) / HANGING_LOG_SD : 0;
  const impossible = whole && (base < least || base > most) ? IMPOSSIBLE : 0;
  const expected = new Map(
    reconciled.flatMap(({ id, adjusted, z }, i) => {
      const { grams, sd } = flows[i] ?? {};
      if (grams === undefined || grams === null || !sd || !z || !adjusted) return [];
      // The adjustment is sd² / s² of the way to what the others say, s being the sd of that distance; z = distance / s.
      const distance = (sd * z) ** 2 / adjusted;
      return [[id, { grams: grams + distance, sd: Math.abs(distance / z) }] as const];
    }),
  );
  return { log: impossible - (chiSquare + size * size) / 2, expected };
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
  // Trim alone is not all the meat: the whole cuts are there too, unweighed.
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
 * The weighings that the balance looks at. Packages count only where whole cuts were weighed nowhere else, and once the trim
 * went through a batch: then they are the whole cuts.
 */
export function balanceRows(weighings: readonly WeighingRecord[], sums: WeightSums): BalanceRow[] {
  const packages = sums.whole_cuts === null && sums.trim_ground > 0;
  return weighings
    .filter(
      ({ stage, void_at }) =>
        void_at === null && (STAGES.includes(stage) || (stage === 'packed' && packages)),
    )
    .map((row) => ({ ...row, tareGrams: readingGrams(row) - row.grams }));
}
const STAGES: readonly string[] = ['received', 'hanging', 'primal', 'cut'];

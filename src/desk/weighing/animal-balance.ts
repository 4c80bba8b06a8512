/** Whether an animal's weights are consistent, and which one is most likely wrong. */
import type { WeightSums } from '../../book/records/weighings.ts';
import { explain, type Explained, type ExplainedWeight, type SlipKind } from '../../core/balance/explain.ts';
import { parseLoads } from '../../core/values/loads.ts';
import type { Typed } from '../../core/values/mistype.ts';
import { ValidationError } from '../../core/values/validation-error.ts';
import { animalFit, type AnimalWeights } from './animal-fit.ts';
import type { BalanceRow } from './balance-flow.ts';
import type { Suspect } from '../contract/contract.ts';
import { typedText } from '../input/typed-text.ts';
import { allParts } from '../animal/weighed-parts.ts';

export interface AnimalBalance {
  /** The weight that is most likely wrong; empty if the weights are consistent or no single one stands out. */
  suspects: Suspect[];
  /** The weights are inconsistent, whether or not a single one stands out. */
  doubtful: boolean;
  /** By how much the parts outweigh the animal, or 0. */
  overGrams: number;
}

/**
 * Odds from which the user is asked. Calibrated so that about one correct animal in a hundred is asked about, see
 * `npm run slips`: frequent warnings are ignored.
 */
const ASK_ODDS = 0.14;
/**
 * Minimum probability to name a weight, because naming the wrong one is worse than naming none. A repeated figure is
 * evidence by itself and needs less.
 */
const NAME_CHANCE = { twice: 0.8, other: 0.93 } as const;
/** Minimum probability to offer a correction. */
const OFFER_CHANCE = 0.5;

/**
 * Testing one weight evaluates all weights some thirty times, so the total grows with the square of their number. Up
 * to about thirty weights all are tested; beyond that only the newest, to bound the response time.
 */
const MAX_TRIES = 1200;
const MIN_TRIED = 8;

/** Checks the weights of an animal and finds the likely error. `containers` in grams. */
export function balanceOf(
  weights: AnimalWeights,
  sums: WeightSums | undefined,
  containers: () => readonly number[],
): AnimalBalance {
  const whole = sums?.hanging ?? sums?.received ?? null;
  const overGrams = whole === null || !sums ? 0 : Math.max(0, allParts(sums) - whole);
  const { odds, weights: found } = explained(weights, containers);
  const [first] = found;
  const row = weights.rows.find(({ id }) => `${id}` === first?.id);
  const doubtful = odds >= ASK_ODDS;
  const named =
    doubtful &&
    first &&
    row &&
    first.chance >= NAME_CHANCE[first.kind === 'weighed-twice' ? 'twice' : 'other'];
  return { suspects: named ? [suspectOf(row, first)] : [], doubtful, overGrams };
}

/** The weight of a set that is most likely wrong, or null below the asking odds. */
export function culprit(weights: AnimalWeights, containers: () => readonly number[]): ExplainedWeight | null {
  const { odds, weights: found } = explained(weights, containers);
  const [first] = found;
  return odds >= ASK_ODDS && first ? first : null;
}

/** The most likely mistake in this weight, if one stands out. */
export function slipOf({ chance, kind, kindChance, meant }: ExplainedWeight): Offer {
  const clear = kindChance >= OFFER_CHANCE * chance;
  if (clear && (kind === 'weighed-twice' || kind === 'other-animal')) return { kind };
  return meant && meant.chance >= OFFER_CHANCE
    ? { kind: meant.kind, meant: meant.reading }
    : { kind: 'unknown' };
}

interface Offer {
  readonly kind: SlipKind;
  /** The likely intended reading. */
  readonly meant?: Typed;
}

function explained(weights: AnimalWeights, containers: () => readonly number[]): Explained {
  const { rows } = weights;
  // Older weights were tested when they were entered.
  const tried = rows.slice(-Math.max(MIN_TRIED, Math.floor(MAX_TRIES / rows.length)));
  const entered = tried.map((row) => ({
    id: `${row.id}`,
    reading: readingOf(row),
    tareGrams: row.tareGrams,
    hasDuplicate: rows.slice(0, rows.indexOf(row)).some((earlier) => isTwin(row, earlier)),
  }));
  return explain(entered, animalFit(weights), containers, ASK_ODDS);
}

/** The reading of a row, with its loads if it was typed as a sum. Text from an imported file may not parse. */
function readingOf({ digits, decimals, unit, typed }: BalanceRow): Typed {
  const plain = { digits, decimals, unit };
  if (!/\d.*\+/.test(typed)) return plain;
  try {
    const { loads, ...sum } = parseLoads(typed, unit);
    const same = sum.digits === digits && sum.decimals === decimals && sum.unit === unit;
    return loads && same ? { ...plain, loads } : plain;
  } catch (error) {
    if (error instanceof ValidationError) return plain;
    throw error;
  }
}

/**
 * Whether two rows may be one tote on the scale twice: the same part, figure and container. Totes of one net weight in
 * different containers are two totes.
 */
function isTwin(a: BalanceRow, b: BalanceRow): boolean {
  const same = (one: number, other: number): boolean => Math.abs(one - other) < SAME_GRAMS;
  return (
    a.stage === b.stage &&
    a.part === b.part &&
    a.primal === b.primal &&
    same(a.grams, b.grams) &&
    same(a.tareGrams, b.tareGrams)
  );
}

/** Readings of one figure differ by less, whatever unit they are converted from. */
const SAME_GRAMS = 0.001;

function suspectOf(row: BalanceRow, found: ExplainedWeight): Suspect {
  const { kind, meant } = slipOf(found);
  return {
    weighingId: row.id,
    stage: row.stage,
    part: row.part,
    primal: row.primal,
    typed: row.typed,
    grams: row.grams,
    likely: meant ? { typed: typedText(meant), kind } : null,
    twice: kind === 'weighed-twice',
    otherAnimal: kind === 'other-animal',
  };
}

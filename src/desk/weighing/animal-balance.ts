/** Whether an animal's weights fit together, and which of them is most likely wrong. */
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
  /** The weight that is most likely wrong; none while the weights fit, or where no single one stands out. */
  suspects: Suspect[];
  /** The weights do not fit, whether or not one of them stands out. */
  doubtful: boolean;
  /** By how much the parts outweigh the animal; 0 when they do not. */
  overGrams: number;
}

/**
 * Odds at which somebody is asked. Set so that about one right animal in a hundred is asked about, see `npm run slips`: a
 * cutter who is asked too often stops reading.
 */
const ASK_ODDS = 0.14;
/**
 * A weight is named if it is this likely to be the wrong one: naming the wrong weight is worse than naming none. The same
 * figure standing twice is itself some evidence, so that less is asked of it.
 */
const NAME_CHANCE = { twice: 0.8, other: 0.93 } as const;
/** What was meant is offered if it is this likely among what may have been meant. */
const OFFER_CHANCE = 0.5;

/**
 * Trying the slips of one weight looks at all weights some thirty times, so that all tries together grow with the square of
 * their number. Up to some thirty weights all of them are tried; of an animal with more, the newest, so that no answer waits.
 */
const MAX_TRIES = 1200;
const MIN_TRIED = 8;

/** What the weights of an animal say, and what went wrong where they do not fit. `containers` in grams. */
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

/** The weight most likely wrong in a set; null while nothing is worth asking. */
export function culprit(weights: AnimalWeights, containers: () => readonly number[]): ExplainedWeight | null {
  const { odds, weights: found } = explained(weights, containers);
  const [first] = found;
  return odds >= ASK_ODDS && first ? first : null;
}

/** The slip that most likely was made with this weight, as far as one stands out. */
export function slipOf({ chance, kind, kindChance, meant }: ExplainedWeight): Offer {
  const clear = kindChance >= OFFER_CHANCE * chance;
  if (clear && (kind === 'weighed-twice' || kind === 'other-animal')) return { kind };
  return meant && meant.chance >= OFFER_CHANCE
    ? { kind: meant.kind, meant: meant.reading }
    : { kind: 'unknown' };
}

interface Offer {
  readonly kind: SlipKind;
  /** What was probably typed wrong. */
  readonly meant?: Typed;
}

function explained(weights: AnimalWeights, containers: () => readonly number[]): Explained {
  const { rows } = weights;
  // Each older weight was tried when it was new itself.
  const tried = rows.slice(-Math.max(MIN_TRIED, Math.floor(MAX_TRIES / rows.length)));
  const entered = tried.map((row) => ({
    id: `${row.id}`,
    reading: readingOf(row),
    tareGrams: row.tareGrams,
    hasDuplicate: rows.slice(0, rows.indexOf(row)).some((earlier) => isTwin(row, earlier)),
  }));
  return explain(entered, animalFit(weights), containers, ASK_ODDS);
}

/** The reading that a row keeps, with its loads where it was typed as a sum. A text from a file need not be one. */
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

/** The same figure of the same part. */
function isTwin(a: BalanceRow, b: BalanceRow): boolean {
  return (
    a.stage === b.stage && a.part === b.part && a.primal === b.primal && Math.abs(a.grams - b.grams) < 0.001
  );
}

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

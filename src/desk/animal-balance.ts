/** Whether an animal's weights fit together, and which of them is most likely wrong. */
import type { WeightSums } from '../book/weighings.ts';
import { explain, type Explained, type Explanation } from '../core/balance/explain.ts';
import { animalFit, type AnimalWeights, type BalanceRow } from './animal-fit.ts';
import type { Suspect } from './shapes.ts';
import { typedText } from './typed-text.ts';
import { allParts } from './weighed-parts.ts';

export interface AnimalBalance {
  /** The weight that is most likely wrong; none while the weights fit, or where no single one stands out. */
  suspects: Suspect[];
  /** Odds that some weight is wrong against that all are right; 0 while nothing is worth asking. */
  odds: number;
  /** The weights do not fit, whether or not one of them stands out. */
  doubtful: boolean;
  /** By how much the parts outweigh the animal; 0 when they do not. */
  overGrams: number;
}

/**
 * Odds at which somebody is asked. Set so that about one right animal in a hundred is asked about, see `npm run slips`: a
 * cutter who is asked too often stops reading.
 */
export const ASK_ODDS = Number(process.env['ODDS'] ?? 2);
/** A weight is named if it is this likely to be the wrong one: naming the wrong weight is worse than naming none. */
const NAME_CHANCE = 0.7;
/** What was meant is offered if it is this likely among the explanations of its own weight. */
const OFFER_CHANCE = 0.5;

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
  const named = doubtful && first && row && first.chance >= NAME_CHANCE;
  return { suspects: named ? [suspectOf(row, first)] : [], odds, doubtful, overGrams };
}

/** The weight most likely wrong in a set, with its chance; null while nothing is worth asking. */
export function culprit(weights: AnimalWeights, containers: () => readonly number[]): NamedWeight | null {
  const { odds, weights: found } = explained(weights, containers);
  const [first] = found;
  return odds >= ASK_ODDS && first ? first : null;
}

export type NamedWeight = Explained['weights'][number];

/** What was meant, where it is likely enough to be offered. */
export function offered({ chance, best }: NamedWeight): Explanation | null {
  return best.meant && best.chance >= OFFER_CHANCE * chance ? best : null;
}

function explained(weights: AnimalWeights, containers: () => readonly number[]): Explained {
  const { rows } = weights;
  const entered = rows.map((row, i) => ({
    id: `${row.id}`,
    reading: { digits: row.digits, decimals: row.decimals, unit: row.unit },
    tareGrams: row.tareGrams,
    hasTwin: rows.slice(0, i).some((earlier) => isTwin(row, earlier)),
  }));
  return explain(entered, animalFit(weights), containers, ASK_ODDS);
}

/** The same figure of the same part. */
function isTwin(a: BalanceRow, b: BalanceRow): boolean {
  return (
    a.stage === b.stage && a.part === b.part && a.primal === b.primal && Math.abs(a.grams - b.grams) < 0.001
  );
}

function suspectOf(row: BalanceRow, named: NamedWeight): Suspect {
  const likely = offered(named);
  return {
    weighingId: row.id,
    stage: row.stage,
    part: row.part,
    primal: row.primal,
    typed: row.typed,
    grams: row.grams,
    likely: likely?.meant ? { typed: typedText(likely.meant), kind: likely.kind } : null,
    twice: named.best.kind === 'weighed-twice' && named.best.chance >= OFFER_CHANCE * named.chance,
    otherAnimal: named.best.kind === 'other-animal' && named.best.chance >= OFFER_CHANCE * named.chance,
  };
}

/** Collects the inputs of the balance for one animal: its weights, its species, the shop's containers. */
import type { AnimalRow } from '../../book/records/animals.ts';
import type { WeighingRecord, WeightSums } from '../../book/records/weighings.ts';
import { readingGrams, type Reading } from '../../core/values/reading.ts';
import type { ExplainedWeight } from '../../core/balance/explain.ts';
import { balanceOf, culprit, type AnimalBalance } from './animal-balance.ts';
import { balanceRows, type AnimalWeights } from './animal-fit.ts';
import type { BalanceRow } from './balance-flow.ts';
import type { Session } from '../session/session.ts';

/** A weight that is being entered. */
interface Entering {
  stage: string;
  part: string;
  primal?: string | null;
  reading: Reading;
  tare: Reading | null;
  grams: number;
}

/** Id of the weight that is being entered; no stored weighing has it. */
const ENTERING = 0;
/**
 * Minimum probability to question the weight that is being entered: after a tote of another animal, the correct ones
 * that follow must not be questioned. A stored weight needs less.
 */
const ASK_CHANCE = { twice: 0.9, other: 0.95 } as const;

export function balanceOfAnimal(
  session: Session,
  animal: AnimalRow,
  weighings: readonly WeighingRecord[],
  sums: WeightSums | undefined,
): AnimalBalance {
  if (!sums) return { suspects: [], doubtful: false, overGrams: 0 };
  return balanceOf(weightsOf(session, animal, balanceRows(weighings, sums)), sums, () =>
    containersOf(session),
  );
}

/** The likely error once this weight is added, if this weight itself is the most likely cause; else null. */
export function culpritWith(
  session: Session,
  animal: AnimalRow,
  sums: WeightSums,
  given: Entering,
): ExplainedWeight | null {
  const found = doubtWith(session, animal, sums, given);
  if (found?.id !== `${ENTERING}`) return null;
  return found.chance >= ASK_CHANCE[found.kind === 'weighed-twice' ? 'twice' : 'other'] ? found : null;
}

/** Whether adding this weight makes consistent weights inconsistent, whichever of them is wrong. */
export function misfitsWith(session: Session, animal: AnimalRow, sums: WeightSums, given: Entering): boolean {
  return doubtWith(session, animal, sums, given) !== null && doubtWith(session, animal, sums, null) === null;
}

function doubtWith(
  session: Session,
  animal: AnimalRow,
  sums: WeightSums,
  given: Entering | null,
): ExplainedWeight | null {
  const kept = balanceRows(session.book.weighings.standing(animal.id), sums);
  const rows = given ? [...kept, rowOf(session, given)] : kept;
  return culprit({ ...weightsOf(session, animal, rows), going: true }, () => containersOf(session));
}

function rowOf(session: Session, { stage, part, primal = null, reading, tare, grams }: Entering): BalanceRow {
  return {
    id: ENTERING,
    stage: stage as BalanceRow['stage'],
    part,
    primal,
    ...reading,
    grams,
    tareGrams: tare ? readingGrams(tare) : 0,
    at: session.now(),
    void_at: null,
  };
}

function weightsOf(session: Session, animal: AnimalRow, rows: readonly BalanceRow[]): AnimalWeights {
  return {
    species: session.species.of(animal.species),
    animal,
    brought: session.book.animals.parts(animal.id),
    rows,
    none: session.book.partNone.ofAnimal(animal.id).map(({ part }) => part),
    shares: session.yields.partShares(animal),
    going: animal.stage === 'hanging' || animal.stage === 'cutting',
    shrink: session.shrink,
  };
}

function containersOf(session: Session): number[] {
  return [...new Set(session.book.weighings.containers().map(readingGrams))];
}

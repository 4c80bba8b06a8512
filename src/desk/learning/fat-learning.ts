/**
 * Learns fat from the book's tests, batch by batch in the order of their start, and restarts no earlier than the
 * first change.
 */
import type { Book } from '../../book/book.ts';
import type { FatEstimates } from './fat-estimates.ts';
import type { CorrelatedFatEstimate } from '../../core/fat/estimates.ts';
import { afterTests, estimatesAt, PRIOR_STATE, type FatKnowledge, type FatState } from './fat-knowledge.ts';
import type { SpeciesShelf } from '../supplied/species-shelf.ts';

interface FatLearning {
  /** The current model. @param start what other shops teach, before the first own test; the same list while it stands */
  knowledge(shelf: Pick<SpeciesShelf, 'of'>, start?: readonly CorrelatedFatEstimate[]): FatKnowledge;
}

interface TestedBatch {
  batch: number;
  after: FatEstimates;
}

/** A checkpoint to resume from: the state after so many tested batches. */
interface Checkpoint {
  batches: number;
  state: FatState;
}

/** Interval and number of checkpoints: together some hundred batches, which covers those still in use. */
const CHECKPOINT_INTERVAL = 32;
const MAX_CHECKPOINTS = 16;

export function fatLearning({ testedGrinds, changes }: Pick<Book, 'testedGrinds' | 'changes'>): FatLearning {
  let tested: readonly TestedBatch[] = [];
  let begun = PRIOR_STATE.estimates;
  let stops: readonly Checkpoint[] = [];
  let known: { shelf: Pick<SpeciesShelf, 'of'>; knowledge: FatKnowledge } | undefined;
  let mark = changes.mark();

  /** @param first the first batch that changed */
  function learn(shelf: Pick<SpeciesShelf, 'of'>, first: number): FatKnowledge {
    const right = countBefore(tested, first);
    const kept = stops.filter((stop) => stop.batches <= right);
    const start: Checkpoint = { batches: 0, state: { ...PRIOR_STATE, estimates: begun } };
    const from = kept.at(-1) ?? start;
    const after = tested.slice(0, from.batches);
    const last = after.at(-1)?.batch ?? 0;
    const sourcesOf = Map.groupBy(testedGrinds.sources(last), ({ batch }) => batch);
    let { state } = from;
    for (const [batch, tests] of Map.groupBy(testedGrinds.tests(last), (test) => test.batch)) {
      const sources = sourcesOf.get(batch);
      // All weights of the batch may have been voided since.
      if (!sources) continue;
      state = afterTests(state, batch, sources, tests, shelf);
      after.push({ batch, after: estimatesAt(state, shelf) });
      if (after.length % CHECKPOINT_INTERVAL === 0) kept.push({ batches: after.length, state });
    }
    tested = after;
    stops = kept.slice(-MAX_CHECKPOINTS);
    return knowledgeOf(after, estimatesAt(start.state, shelf));
  }

  return {
    knowledge(shelf, start = PRIOR_STATE.estimates) {
      if (start !== begun) known = undefined;
      begun = start;
      const since = changes.since(mark);
      mark = changes.mark();
      if (known?.shelf === shelf && since?.testedGrinds.size === 0) return known.knowledge;
      const asBefore = known?.shelf === shelf && since;
      known = { shelf, knowledge: learn(shelf, asBefore ? Math.min(...since.testedGrinds) : 0) };
      return known.knowledge;
    },
  };
}

function knowledgeOf(tested: readonly TestedBatch[], prior: FatEstimates): FatKnowledge {
  return {
    now: tested.at(-1)?.after ?? prior,
    before: (batchId) => tested[countBefore(tested, batchId) - 1]?.after ?? prior,
  };
}

/** The number of these batches, in order, that precede this one. */
function countBefore(tested: readonly TestedBatch[], batchId: number): number {
  let [least, most] = [0, tested.length];
  while (least < most) {
    const middle = (least + most) >> 1;
    if ((tested[middle]?.batch ?? batchId) < batchId) least = middle + 1;
    else most = middle;
  }
  return least;
}

/** The state after every test of the book, without what other shops teach. */
export function ownFatState(
  { testedGrinds }: Pick<Book, 'testedGrinds'>,
  shelf: Pick<SpeciesShelf, 'of'>,
): FatState {
  const sourcesOf = Map.groupBy(testedGrinds.sources(0), ({ batch }) => batch);
  let state = PRIOR_STATE;
  for (const [batch, tests] of Map.groupBy(testedGrinds.tests(0), (test) => test.batch)) {
    const sources = sourcesOf.get(batch);
    if (sources) state = afterTests(state, batch, sources, tests, shelf);
  }
  return state;
}

/** The mass balance of one animal: its weighings as flows on a graph, held against each other and against its kind. */
import type { AnimalRow } from '../book/animals.ts';
import type { WeighingRecord, WeightSums } from '../book/weighings.ts';
import { reconcile } from '../core/balance.ts';
import type { SpeciesProfile } from '../core/species.ts';
import type { Part, Range } from '../core/yield.ts';
import { hookFlows } from './hook-flows.ts';
import type { HookShrink } from './hook-shrink.ts';
import { primalFlows } from './primal-flows.ts';
import { primalsOf } from './primals.ts';
import type { Suspect } from './shapes.ts';
import { HEAPS, packedCuts, tableFlows } from './table-flows.ts';
import { typedText } from './typed-text.ts';
import { allParts, shareBase } from './weighing-check.ts';

export interface AnimalBalance {
  suspects: Suspect[];
  pValue: number | null;
  /** By how much the parts outweigh the animal; 0 when they do not. */
  overGrams: number;
}

/** One false alarm in a hundred right animals: a cutter who is asked too often stops reading. */
const LEVEL = 0.01;
const MOST_SUSPECTS = 3;

/**
 * Hook, block and heaps as one graph. Suspects are those that somebody could still weigh again: while the cutting
 * goes on a heavy tote or primal, and everything before the table once the block closes.
 */
export function balanceOf(
  species: SpeciesProfile,
  animal: AnimalRow,
  parts: readonly { primal: string; count: number }[],
  weighings: readonly WeighingRecord[],
  sums: WeightSums | undefined,
  shares: Record<Part, Range>,
  shrink: HookShrink,
): AnimalBalance {
  const base = shareBase(animal, sums, species);
  const nothing = { suspects: [], pValue: null, overGrams: 0 };
  if (base === null || !sums) return nothing;
  const whole = sums.hanging ?? sums.received ?? base;
  const cut = weighings.filter((row) => row.stage === 'cut' && row.void_at === null);
  const going = isGoing(animal, sums, whole);
  const block = primalFlows(primalsOf(species, parts), weighings, base, going);
  if (cut.length === 0 && block.flows.length === 0 && sums.hanging === null) return nothing;
  const over = Math.max(0, allParts(sums) - whole);
  const next = block.flows.length > 0 ? 'block' : 'table';
  const flows = [
    ...hookFlows(species, animal, weighings, sums, shrink, next),
    ...block.flows,
    ...(cut.length > 0 ? tableFlows(cut, packedCuts(weighings, sums), base, shares, going) : []),
  ];
  const nodes = ['hook', ...block.nodes, 'table', ...HEAPS].filter((node) =>
    flows.some(({ from, to }) => from === node || to === node),
  );
  const { suspects, pValue, degrees } = reconcile({ flows, nodes, level: LEVEL });
  const row = (flowId: string) => weighings.find(({ id }) => `${id}` === flowId);
  const asked = suspects.filter(
    ({ believed, id, z }) => !believed && (!going || isWorthAsking(row(id)?.stage, z, block.complete)),
  );
  return {
    suspects: rows(asked.slice(0, MOST_SUSPECTS), weighings, over),
    pValue: degrees > 0 ? pValue : null,
    overGrams: over,
  };
}

function isGoing(animal: AnimalRow, sums: WeightSums, whole: number): boolean {
  return (animal.stage === 'hanging' || animal.stage === 'cutting') && allParts(sums) <= whole;
}

/** While the cutting goes on what is light may have more to come, and the hook is doubted only by a closed block. */
function isWorthAsking(stage: WeighingRecord['stage'] | undefined, z: number, blockCloses: boolean): boolean {
  if (stage === 'cut') return z < 0;
  return blockCloses || (stage === 'primal' && z < 0);
}

function rows(
  suspects: ReturnType<typeof reconcile>['suspects'],
  weighings: readonly WeighingRecord[],
  over: number,
): Suspect[] {
  return suspects.flatMap(({ id, z, likelyTyped }) => {
    const row = weighings.find((weighing) => `${weighing.id}` === id);
    if (!row) return [];
    const twice = weighedTwice(row, weighings, over);
    const likely = likelyTyped && !twice ? { typed: typedText(likelyTyped), kind: likelyTyped.kind } : null;
    return [
      {
        weighingId: row.id,
        stage: row.stage,
        part: row.part,
        primal: row.primal,
        typed: row.typed,
        grams: row.grams,
        z,
        likely,
        twice,
      },
    ];
  });
}

/** The same figure of the same part stands twice, and one of them is all that is too much. */
function weighedTwice(row: WeighingRecord, weighings: readonly WeighingRecord[], over: number): boolean {
  return (
    over > 0 &&
    row.grams >= over &&
    weighings.some(
      (other) =>
        other.id !== row.id &&
        other.void_at === null &&
        other.stage === row.stage &&
        other.part === row.part &&
        other.primal === row.primal &&
        other.grams === row.grams,
    )
  );
}

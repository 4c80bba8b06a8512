/** The heaps of the table: each tote goes into its heap, and each heap is as its kind of animal usually gives. */
import type { WeighingRecord, WeightSums } from '../book/weighings.ts';
import type { Flow } from '../core/balance.ts';
import type { Part, Range } from '../core/yield.ts';
import { flowOf } from './balance-flow.ts';
import { PART_OF, sdOf } from './weighing-check.ts';

/** Flows at which the heaps of the table leave it; whole cuts and trim follow the order, so they make one heap. */
export const HEAPS: readonly Part[] = ['meat', 'fatSaved', 'sinew', 'bone', 'damage'];
/** No share is known better than this. */
const LEAST_SD_SHARE = 0.002;

/**
 * Each tote flows into its heap, and each heap flows out as much as its kind of animal usually gives. The usual
 * amounts are taken as independent, which they are not quite: they share one carcass. While the cutting goes on,
 * a heap below its usual amount may have totes to come, so it is left open.
 */
export function tableFlows(
  cut: readonly WeighingRecord[],
  packed: readonly WeighingRecord[],
  base: number,
  shares: Record<Part, Range>,
  going: boolean,
): Flow[] {
  const totes = [
    ...cut.map((row) => flowOf(row, 'table', heapOf(row.part))),
    ...packed.map((row) => flowOf(row, 'table', 'meat')),
  ];
  // Trim alone is not all the meat: the whole cuts are there too, unweighed.
  const trimOnly = packed.length === 0 && !cut.some(({ part }) => part === 'whole cuts');
  const weighed = (heap: Part): number =>
    totes.filter(({ to }) => to === heap).reduce((total, { grams }) => total + (grams ?? 0), 0);
  const usual = (part: Part) => ({
    mean: shares[part].mean * base,
    sd: Math.max(sdOf(shares[part]), LEAST_SD_SHARE) * base,
  });
  const out = HEAPS.map((heap) => ({
    id: `usual ${heap}`,
    from: heap,
    to: null,
    grams: null,
    prior: usual(heap),
  }));
  const open = HEAPS.filter(
    (heap) =>
      weighed(heap) === 0 ||
      (going && weighed(heap) < usual(heap).mean) ||
      (trimOnly && heap === 'meat' && weighed(heap) < usual(heap).mean),
  );
  const toCome = open.map((heap) => ({ id: `to come ${heap}`, from: 'table', to: heap, grams: null }));
  return [
    ...totes,
    ...toCome,
    ...out,
    { id: 'shrink', from: 'table', to: null, grams: null, prior: usual('shrink') },
  ];
}

/** Whole cuts weighed only in their packages, which are known from the ground ones once the grind went through a batch. */
export function packedCuts(
  weighings: readonly WeighingRecord[],
  sums: WeightSums,
): readonly WeighingRecord[] {
  if (sums.whole_cuts !== null || sums.trim_ground === 0) return [];
  return weighings.filter((row) => row.stage === 'packed' && row.void_at === null);
}

function heapOf(part: string): Part {
  const named = PART_OF[part] ?? 'meat';
  return named === 'wholeCuts' || named === 'trim' ? 'meat' : named;
}

/** The mass balance of one animal: its weighings as flows on a graph, held against each other and against its kind. */
import type { AnimalRow } from '../book/animals.ts';
import type { WeighingRecord, WeightSums } from '../book/weighings.ts';
import { reconcile, type Flow } from '../core/balance.ts';
import { daysBetween } from '../core/dates.ts';
import { shrinkAfter } from '../core/hanging.ts';
import { readingStepGrams } from '../core/reading.ts';
import type { Part, Range } from '../core/yield.ts';
import type { SpeciesProfile } from '../core/species.ts';
import type { Suspect } from './shapes.ts';
import { typedText } from './typed-text.ts';
import { allParts, PART_OF, sdOf, shareBase } from './weighing-check.ts';

export interface AnimalBalance {
  suspects: Suspect[];
  pValue: number | null;
  /** By how much the parts outweigh the animal; 0 when they do not. */
  overGrams: number;
}

/** Flows at which the heaps of the table leave it; whole cuts and trim follow the order, so they make one heap. */
const HEAPS: readonly Part[] = ['meat', 'fatSaved', 'sinew', 'bone', 'damage'];
/** One false alarm in a hundred right animals: a cutter who is asked too often stops reading. */
const LEVEL = 0.01;
/** A reading is no better than this share of itself, whatever its step: hooks swing and totes drip. */
const RELATIVE_SD = 0.002;
const MOST_SUSPECTS = 3;
/** No share is known better than this. */
const LEAST_SD_SHARE = 0.002;

export function balanceOf(
  species: SpeciesProfile,
  animal: AnimalRow,
  weighings: readonly WeighingRecord[],
  sums: WeightSums | undefined,
  shares: Record<Part, Range>,
  today: string,
): AnimalBalance {
  const base = shareBase(animal, sums, species);
  const nothing = { suspects: [], pValue: null, overGrams: 0 };
  if (base === null || !sums) return nothing;
  const whole = sums.hanging ?? sums.received ?? base;
  const cut = weighings.filter((row) => row.stage === 'cut' && row.void_at === null);
  if (cut.length === 0 && sums.hanging === null) return nothing;
  const over = Math.max(0, allParts(sums) - whole);
  const going = (animal.stage === 'hanging' || animal.stage === 'cutting') && over === 0;
  const flows = [
    ...hookFlows(species, animal, weighings, sums, today),
    ...(cut.length > 0 ? tableFlows(cut, packedCuts(weighings, sums), base, shares, going) : []),
  ];
  const nodes = ['hook', 'table', ...HEAPS].filter((node) =>
    flows.some(({ from, to }) => from === node || to === node),
  );
  const { suspects, pValue, degrees } = reconcile({ flows, nodes, level: LEVEL });
  // While the cutting goes on only a heavy tote is worth a question, and the hook is not doubted.
  const asked = suspects.filter((one) => !one.believed && (!going || (one.z < 0 && isCut(cut, one.id))));
  return {
    suspects: rows(asked.slice(0, MOST_SUSPECTS), weighings),
    pValue: degrees > 0 ? pValue : null,
    overGrams: over,
  };
}

function isCut(cut: readonly WeighingRecord[], flowId: string): boolean {
  return cut.some(({ id }) => `${id}` === flowId);
}

/** Received → hanging: what is lost between is hide and head, or only what the cooler takes. */
function hookFlows(
  species: SpeciesProfile,
  animal: AnimalRow,
  weighings: readonly WeighingRecord[],
  sums: WeightSums,
  today: string,
): Flow[] {
  const hanging = weighings.filter((row) => row.stage === 'hanging' && row.void_at === null);
  const received = weighings.filter((row) => row.stage === 'received' && row.void_at === null);
  const into = received.map((row) => flowOf(row, null, 'hook'));
  const onto = hanging.map((row) => flowOf(row, 'hook', 'table'));
  if (sums.received === null) return hanging.map((row) => flowOf(row, null, 'table'));
  if (onto.length === 0) {
    const lost = animal.brought === 'whole' ? hideAndHead(species, sums.received) : null;
    if (!lost) return received.map((row) => flowOf(row, null, 'table'));
    return [
      ...into,
      { id: 'hide', from: 'hook', to: null, grams: null, prior: lost },
      { id: 'onto table', from: 'hook', to: 'table', grams: null },
    ];
  }
  const lost =
    animal.brought === 'whole'
      ? hideAndHead(species, sums.received)
      : chilling(animal, sums.received, hanging.at(-1)?.at.slice(0, 10) ?? today);
  return [...into, ...onto, { id: 'hide', from: 'hook', to: null, grams: null, prior: lost }];
}

function hideAndHead({ ratios }: SpeciesProfile, received: number): { mean: number; sd: number } {
  const { mean, sd } = ratios.dressedToHanging;
  return { mean: (1 - mean) * received, sd: sd * received };
}

/** What the cooler takes until the day of the hanging weight. */
function chilling(animal: AnimalRow, received: number, on: string): { mean: number; sd: number } {
  const { mean, sd } = shrinkAfter(Math.max(1, daysBetween(animal.received_on, on)));
  return { mean: mean * received, sd: sd * received };
}

/**
 * Each tote flows into its heap, and each heap flows out as much as its kind of animal usually gives. The usual
 * amounts are taken as independent, which they are not quite: they share one carcass. While the cutting goes on,
 * a heap below its usual amount may have totes to come, so it is left open.
 */
function tableFlows(
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
function packedCuts(weighings: readonly WeighingRecord[], sums: WeightSums): readonly WeighingRecord[] {
  if (sums.whole_cuts !== null || sums.trim_ground === 0) return [];
  return weighings.filter((row) => row.stage === 'packed' && row.void_at === null);
}

function heapOf(part: string): Part {
  const named = PART_OF[part] ?? 'meat';
  return named === 'wholeCuts' || named === 'trim' ? 'meat' : named;
}

function flowOf(row: WeighingRecord, from: string | null, to: string | null): Flow {
  const { digits, decimals, unit } = row;
  const sd = Math.hypot(readingStepGrams(row) / 2, row.grams * RELATIVE_SD);
  return { id: `${row.id}`, from, to, grams: row.grams, sd, reading: { digits, decimals, unit } };
}

function rows(
  suspects: ReturnType<typeof reconcile>['suspects'],
  weighings: readonly WeighingRecord[],
): Suspect[] {
  return suspects.flatMap(({ id, z, likelyTyped }) => {
    const row = weighings.find((weighing) => `${weighing.id}` === id);
    if (!row) return [];
    const likely = likelyTyped ? { typed: typedText(likelyTyped), kind: likelyTyped.kind } : null;
    return [
      { weighingId: row.id, stage: row.stage, part: row.part, typed: row.typed, grams: row.grams, z, likely },
    ];
  });
}

import type { FlowReport } from '../../../bridge/contract.ts';
import { flowText as text } from '../../texts/en/season/flow.ts';

/** Animals that took from `least` to `most` days. */
export interface WaitBin {
  least: number;
  most: number;
  label: string;
  animals: number;
}

/** More bars than this in one picture cannot be told apart. */
const MOST_BINS = 32;
/** What took longer than all but a fiftieth stands as one bar: a date mistyped by a year must not flatten the others. */
const USUAL = 0.98;
const WIDTHS = [1, 2, 7, 14, 28, 91, 364];

/** A bar for each day, or for so many days each that there is room; the last holds what took longer still. */
export function waitBins(waits: FlowReport['waits']): WaitBin[] {
  const [first, last] = [waits[0], waits.at(-1)];
  if (!first || !last) return [];
  const usual = Math.max(first.days, Math.floor(middleOf(waits, USUAL)));
  const width = WIDTHS.find((days) => (usual - first.days + 1) / days <= MOST_BINS - 1) ?? usual + 1;
  const begin = Math.floor(first.days / width) * width;
  const bars = Math.floor((usual - begin) / width) + 1;
  const longer = last.days >= begin + bars * width;
  return Array.from({ length: longer ? bars + 1 : bars }, (_, i) => {
    const least = begin + i * width;
    const rest = i === bars;
    const most = rest ? last.days : least + width - 1;
    return {
      least,
      most,
      label: rest ? text.binMore(least) : least === most ? String(least) : `${least}–${most}`,
      animals: waits
        .filter(({ days }) => days >= least && days <= most)
        .reduce((total, { animals }) => total + animals, 0),
    };
  });
}

/** The days that a share `p` of the animals did not exceed, linear between them as everywhere in the house. */
export function middleOf(waits: FlowReport['waits'], p: number): number {
  const count = waits.reduce((total, { animals }) => total + animals, 0);
  const at = (count - 1) * p;
  const [below, above] = [dayAt(waits, Math.floor(at)), dayAt(waits, Math.ceil(at))];
  return below + (above - below) * (at - Math.floor(at));
}

/** Days of the animal at a place in the order, the soonest at 0. */
function dayAt(waits: FlowReport['waits'], place: number): number {
  let passed = 0;
  return waits.find(({ animals }) => (passed += animals) > place)?.days ?? 0;
}

import type { FlowReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';

/** Animals that took `least` to `most` days. */
export interface WaitBin {
  least: number;
  most: number;
  label: string;
  animals: number;
}

/** More bars in one picture are indistinguishable. */
const MAX_BINS = 32;
/** The longest fiftieth of the waits is one bar, so that a mistyped year does not flatten the others. */
const USUAL = 0.98;
const WIDTHS = [1, 2, 7, 14, 28, 91, 364];

/** A bar per day, or per group of days if there are many; the last one collects all longer waits. */
export function waitBins(waits: FlowReport['waits']): WaitBin[] {
  const [first, last] = [waits[0], waits.at(-1)];
  if (!first || !last) return [];
  const usual = Math.max(first.days, Math.floor(waitQuantile(waits, USUAL)));
  const width = WIDTHS.find((days) => (usual - first.days + 1) / days <= MAX_BINS - 1) ?? usual + 1;
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
      label: rest ? text.binMore({ from: least }) : least === most ? String(least) : `${least}–${most}`,
      animals: waits
        .filter(({ days }) => days >= least && days <= most)
        .reduce((total, { animals }) => total + animals, 0),
    };
  });
}

/** The quantile `p` of the days, with the same linear interpolation as everywhere. */
export function waitQuantile(waits: FlowReport['waits'], p: number): number {
  const count = waits.reduce((total, { animals }) => total + animals, 0);
  const at = (count - 1) * p;
  const [below, above] = [dayAt(waits, Math.floor(at)), dayAt(waits, Math.ceil(at))];
  return below + (above - below) * (at - Math.floor(at));
}

/** Days of the animal at an index in ascending order. */
function dayAt(waits: FlowReport['waits'], place: number): number {
  let passed = 0;
  return waits.find(({ animals }) => (passed += animals) > place)?.days ?? 0;
}

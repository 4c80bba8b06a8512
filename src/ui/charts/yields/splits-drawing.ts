import type { SeasonFilter } from '../../../bridge/contract.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT, namesAxis, sharesAxis } from '../engine/axes.ts';
import { boxLayers } from '../engine/boxes.ts';
import type { AxisPlot } from '../plot.ts';
import { FEW } from '../story.ts';
import type { SplitGroup } from './split-rows.ts';

/** Height of a row and width of the words after the boxes, in CSS pixels. */
export interface SplitSizes {
  row: number;
  words: number;
  /** Distance from the median to the count, within the words. */
  count: number;
  /** With little room, boxes without whiskers are clearer than boxes flattened by one outlier. */
  whiskers: boolean;
}
/** On screen, where a row is touched with a gloved finger, and on half a sheet of paper. */
export const WIDE: SplitSizes = { row: 40, words: 216, count: 64, whiskers: true };
export const NARROW: SplitSizes = { row: 19, words: 118, count: 56, whiskers: false };

/** Groups under their headings, a box per row on a common scale, with median and count in words. */
export function drawSplits(
  groups: readonly SplitGroup[],
  format: Format,
  linkOf: (filter: SeasonFilter) => string,
  { row, words, count, whiskers }: SplitSizes,
): AxisPlot {
  const lines = groups.flatMap(({ title, rows }) => [{ title }, ...rows.map((of) => ({ title: of.label, of }))]);
  const rows = lines.flatMap((line, at) => ('of' in line ? [{ ...line.of, at, enough: line.of.spread.n >= FEW }] : []));
  const boxes = rows.flatMap(({ at, spread, enough }) => (enough ? [{ at, ...spread }] : []));
  const ends = rows.flatMap(({ spread: { low, q1, median, q3, high }, enough }) =>
    !enough ? [median] : whiskers ? [low, high] : [q1, q3],
  );
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const air = Math.max(0.01, (high - low) * 0.04);
  const counted = ({ n }: { n: number }): string => (n >= FEW || !whiskers ? `n = ${n}` : text.tooFew({ n }));
  const max = high + air;
  return {
    height: lines.length * row + FOOT,
    lying: true,
    x: { ...sharesAxis(format), min: Math.max(0, low - air), max, above: true },
    y: { ...namesAxis(lines.map(({ title }) => title)), heading: (at) => lines[at] !== undefined && !('of' in lines[at]) },
    layers: [
      ...boxLayers(boxes, { thick: row * 0.56, paint: 'spruce', median: 'card', whiskers }),
      {
        kind: 'points',
        points: rows
          .filter(({ enough }) => !enough)
          .map(({ at, spread }) => ({ x: spread.median, y: at, look: { shape: 'circle', size: 5.5, paint: 'card', edge: 'ink' } })),
      },
    ],
    words: rows.flatMap(({ at, spread }) => [
      { x: max, y: at, dx: 16, text: format.share(spread.median), bold: true as const },
      { x: max, y: at, dx: 16 + count, text: counted(spread), tone: 'muted' as const },
    ]),
    marks: rows.map(({ at, label, spread, filter }) => ({
      label: common.named({ name: label, text: `${format.share(spread.median)}, ${counted(spread)}` }),
      link: linkOf(filter),
      y: [at - 0.5, at + 0.5],
    })),
    room: { right: words },
  };
} // prettier-ignore

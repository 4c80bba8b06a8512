import type { SeasonFilter } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { FEW } from '../story.ts';
import { box, disc, line, type Mark, type Scene, type Shape } from '../drawing/scene.ts';
import { axisOf, type SceneAxis } from '../drawing/scene-axis.ts';
import type { SplitGroup, SplitRow } from './split-rows.ts';

/** Sizes of rows, headings, names, and the texts after the boxes. */
export interface SplitSizes {
  row: number;
  head: number;
  names: number;
  words: number;
  /** Distance from the median to the count, within the text. */
  count: number;
  ticks: number;
  /** With little room, boxes without whiskers are clearer than boxes flattened by one outlier. */
  whiskers: boolean;
}
/** On screen, where a row is touched with a gloved finger, and on half a sheet of paper. */
export const WIDE: SplitSizes = {
  row: 44,
  head: 34,
  names: 200,
  words: 230,
  count: 64,
  ticks: 6,
  whiskers: true,
};
export const NARROW: SplitSizes = {
  row: 20,
  head: 23,
  names: 152,
  words: 126,
  count: 56,
  ticks: 2,
  whiskers: false,
};
const AXIS = 26;
/** Minimum distance of axis labels in pixels. */
const TICK = 46;

/** Groups under their headings, a box per row on a common scale, with median and count as text. */
export function drawSplits(
  groups: readonly SplitGroup[],
  format: Format,
  linkOf: (filter: SeasonFilter) => string,
  colors: ChartColors,
  width: number,
  sizes: SplitSizes,
): Scene {
  const spreads = groups.flatMap(({ rows }) => rows.map(({ spread }) => spread));
  const axis = axisOf(
    spreads.flatMap(({ n, low, q1, median, q3, high }) => {
      if (n < FEW) return [median];
      return sizes.whiskers ? [low, high] : [q1, q3];
    }),
    sizes.names,
    width - sizes.words,
    sizes.ticks,
  );
  let y = AXIS;
  const marks = groups.flatMap(({ title, rows }): Mark[] => {
    const head: Mark = {
      shapes: [
        { kind: 'text', x: 0, y: y + sizes.head - 9, text: title, size: 15, weight: 700, fill: colors.ink },
      ],
    };
    y += sizes.head;
    const drawn = rows.map((row) => {
      const mark = rowMark(row, y, axis, format, linkOf, colors, width, sizes);
      y += sizes.row;
      return mark;
    });
    y += 8;
    return [head, ...drawn];
  });
  return { width, height: y, marks: [grid(axis, y, format, colors), ...marks] };
}

/** Grid lines at round shares; if they are close together, only some are labeled. */
function grid(axis: SceneAxis, bottom: number, format: Format, colors: ChartColors): Mark {
  const [first = 0, second = 1] = axis.ticks;
  const named = Math.max(1, Math.ceil(TICK / (axis.at(second) - axis.at(first))));
  return {
    shapes: axis.ticks.flatMap((tick, i): Shape[] => [
      { kind: 'path', d: line(axis.at(tick), AXIS - 6, axis.at(tick), bottom - 6), stroke: colors.line },
      ...(i % named === 0
        ? [{ kind: 'text' as const, x: axis.at(tick), y: 16, text: format.share(tick, 0), size: 13, fill: colors.muted, anchor: 'middle' as const }] // prettier-ignore
        : []),
    ]),
  };
}

function rowMark(
  { label, spread, filter }: SplitRow,
  y: number,
  axis: SceneAxis,
  format: Format,
  linkOf: (filter: SeasonFilter) => string,
  colors: ChartColors,
  width: number,
  sizes: SplitSizes,
): Mark {
  const middle = y + sizes.row / 2;
  const words = width - sizes.words + 18;
  const enough = spread.n >= FEW;
  const count = enough || sizes === NARROW ? `n = ${spread.n}` : text.tooFew({ n: spread.n });
  const print = { kind: 'text' as const, y: middle + 5, size: FONT_SIZE, fill: colors.ink };
  return {
    label: `${label}: ${format.share(spread.median)}, ${count}`,
    link: linkOf(filter),
    shapes: [
      // The whole row is a link, not only its thin lines.
      { kind: 'path', d: box(0, y + 1, width, sizes.row - 2, 6), fill: colors.card, opacity: 0.01 },
      { ...print, x: 12, text: label },
      ...(enough ? boxShapes(spread, middle, sizes, axis, colors) : []),
      ...(enough ? [] : [{ kind: 'path' as const, d: disc(axis.at(spread.median), middle, 5.5), fill: colors.card, stroke: colors.ink, strokeWidth: 2 }]), // prettier-ignore
      { ...print, x: words, text: format.share(spread.median), weight: 700 },
      { ...print, x: words + sizes.count, text: count, fill: colors.muted },
    ],
  };
}

function boxShapes(
  { low, q1, median, q3, high }: SplitRow['spread'],
  y: number,
  { row, whiskers }: SplitSizes,
  axis: SceneAxis,
  colors: ChartColors,
): Shape[] {
  const half = row * 0.28;
  const stroke = { kind: 'path' as const, stroke: colors.ink, strokeWidth: 1.5 };
  const reach = [
    { ...stroke, d: line(axis.at(low), y, axis.at(q1), y) },
    { ...stroke, d: line(axis.at(q3), y, axis.at(high), y) },
    { ...stroke, d: line(axis.at(low), y - half / 2, axis.at(low), y + half / 2) },
    { ...stroke, d: line(axis.at(high), y - half / 2, axis.at(high), y + half / 2) },
  ];
  return [
    ...(whiskers ? reach : []),
    {
      ...stroke,
      d: box(axis.at(q1), y - half, Math.max(2, axis.at(q3) - axis.at(q1)), 2 * half, 3),
      fill: colors.spruce,
    },
    {
      kind: 'path',
      d: line(axis.at(median), y - half, axis.at(median), y + half),
      stroke: colors.card,
      strokeWidth: 3,
    },
  ];
}

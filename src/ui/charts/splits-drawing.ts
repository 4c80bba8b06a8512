import type { SeasonFilter } from '../../bridge/contract.ts';
import { yieldsText as text } from '../texts/en-season-yields.ts';
import type { Format } from '../texts/format.ts';
import { FONT_SIZE } from './axes.ts';
import type { ChartColours } from './colours.ts';
import { FEW } from './few.ts';
import { box, disc, line, type Mark, type Scene, type Shape } from './scene.ts';
import { axisOf, type SceneAxis } from './scene-axis.ts';
import type { SplitGroup, SplitRow } from './split-rows.ts';

const ROW = 38;
const HEAD = 34;
const NAMES = 200;
/** Room for the middle and the count behind the boxes. */
const WORDS = 230;
const AXIS = 30;

/** Groups under their heads, a box for each row on one scale, the middle and the count in print beside it. */
export function drawSplits(
  groups: readonly SplitGroup[],
  format: Format,
  linkOf: (filter: SeasonFilter) => string,
  colours: ChartColours,
  width: number,
): Scene {
  const spreads = groups.flatMap(({ rows }) => rows.map(({ spread }) => spread));
  const axis = axisOf(
    spreads.flatMap(({ n, low, median, high }) => (n < FEW ? [median] : [low, high])),
    NAMES,
    width - WORDS,
    6,
  );
  let y = AXIS;
  const marks = groups.flatMap(({ title, rows }): Mark[] => {
    const head: Mark = {
      shapes: [{ kind: 'text', x: 0, y: y + 22, text: title, size: 16, weight: 700, fill: colours.ink }],
    };
    y += HEAD;
    const drawn = rows.map((row) => {
      const mark = rowMark(row, y, axis, format, linkOf, colours, width);
      y += ROW;
      return mark;
    });
    y += 8;
    return [head, ...drawn];
  });
  return { width, height: y, marks: [grid(axis, y, format, colours), ...marks] };
}

function grid(axis: SceneAxis, bottom: number, format: Format, colours: ChartColours): Mark {
  return {
    shapes: axis.ticks.flatMap((tick): Shape[] => [
      { kind: 'path', d: line(axis.at(tick), AXIS - 6, axis.at(tick), bottom - 6), stroke: colours.line },
      { kind: 'text', x: axis.at(tick), y: 16, text: format.share(tick, 0), size: 13, fill: colours.muted, anchor: 'middle' }, // prettier-ignore
    ]),
  };
}

function rowMark(
  { label, spread, filter }: SplitRow,
  y: number,
  axis: SceneAxis,
  format: Format,
  linkOf: (filter: SeasonFilter) => string,
  colours: ChartColours,
  width: number,
): Mark {
  const middle = y + ROW / 2;
  const enough = spread.n >= FEW;
  const count = enough ? `n = ${spread.n}` : text.tooFew(spread.n);
  const print = { kind: 'text' as const, y: middle + 5, size: FONT_SIZE, fill: colours.ink };
  return {
    says: `${label}: ${format.share(spread.median)}, ${count}`,
    link: linkOf(filter),
    shapes: [
      // The whole row can be chosen, not only its thin lines.
      { kind: 'path', d: box(0, y + 1, width, ROW - 2, 6), fill: colours.card, opacity: 0.01 },
      { ...print, x: 12, text: label },
      ...(enough ? boxShapes(spread, middle, axis, colours) : []),
      ...(enough ? [] : [{ kind: 'path' as const, d: disc(axis.at(spread.median), middle, 5.5), fill: colours.card, stroke: colours.ink, strokeWidth: 2 }]), // prettier-ignore
      { ...print, x: width - WORDS + 18, text: format.share(spread.median), weight: 700 },
      { ...print, x: width - WORDS + 82, text: count, fill: colours.muted },
    ],
  };
}

function boxShapes(
  { low, q1, median, q3, high }: SplitRow['spread'],
  y: number,
  axis: SceneAxis,
  colours: ChartColours,
): Shape[] {
  const stroke = { kind: 'path' as const, stroke: colours.ink, strokeWidth: 1.5 };
  return [
    { ...stroke, d: line(axis.at(low), y, axis.at(q1), y) },
    { ...stroke, d: line(axis.at(q3), y, axis.at(high), y) },
    { ...stroke, d: line(axis.at(low), y - 6, axis.at(low), y + 6) },
    { ...stroke, d: line(axis.at(high), y - 6, axis.at(high), y + 6) },
    {
      ...stroke,
      d: box(axis.at(q1), y - 11, Math.max(2, axis.at(q3) - axis.at(q1)), 22, 3),
      fill: colours.spruce,
    },
    {
      kind: 'path',
      d: line(axis.at(median), y - 11, axis.at(median), y + 11),
      stroke: colours.card,
      strokeWidth: 3,
    },
  ];
}

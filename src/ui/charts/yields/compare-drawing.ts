import type { ComparedGroup, ComparisonReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/compare.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { type GroupNames, measureWriter } from './compare-words.ts';
import { box, diamond, disc, line, type Mark, type Scene, type Shape } from '../drawing/scene.ts';
import { axisOf, type SceneAxis } from '../drawing/scene-axis.ts';

const ROW = 74;
const HEAD = 44;
/** Margins for labels at the ends of an axis. */
const EDGE = 48;

/** Both groups on one axis, and below them the difference on an axis with its zero. */
export function drawCompare(
  view: ComparisonReport,
  names: GroupNames,
  format: Format,
  linkOf: (side: 'a' | 'b') => string,
  colors: ChartColors,
  width: number,
): Scene {
  const { value, gap } = measureWriter(view.by, format);
  const axis = axisOf(
    (['a', 'b'] as const).flatMap((side) => endsOf(view[side])),
    EDGE,
    width - EDGE,
    6,
  );
  const groupsEnd = HEAD + 2 * ROW;
  const differenceTop = groupsEnd + 30;
  return {
    width,
    height: view.difference ? differenceTop + HEAD + 78 : groupsEnd,
    marks: [
      grid(axis, { top: HEAD - 8, bottom: groupsEnd, title: text.axis[view.by] }, value, colors),
      ...(['a', 'b'] as const).map((side, i) =>
        groupMark(view[side], names[side], side, HEAD + i * ROW, axis, value, linkOf, colors),
      ),
      ...(view.difference ? differenceMarks(view.difference, names, differenceTop, gap, colors, width) : []),
    ],
  };
}

/** One standard deviation on each side, but not below zero. */
function endsOf({ mean, sd }: ComparedGroup): number[] {
  return mean === null ? [] : [Math.max(0, mean - (sd ?? 0)), mean + (sd ?? 0)];
}

function grid(
  axis: SceneAxis,
  { top, bottom, title }: { top: number; bottom: number; title: string },
  written: (x: number) => string,
  colors: ChartColors,
): Mark {
  return {
    shapes: [
      { kind: 'text', x: 0, y: 14, text: title, size: FONT_SIZE, weight: 600, fill: colors.muted },
      ...axis.ticks.flatMap((tick): Shape[] => [
        { kind: 'path', d: line(axis.at(tick), top, axis.at(tick), bottom), stroke: colors.line },
        { kind: 'text', x: axis.at(tick), y: top - 6, text: written(tick), size: 13, fill: colors.muted, anchor: 'middle' }, // prettier-ignore
      ]),
    ],
  };
}

function groupMark(
  group: ComparedGroup,
  name: string,
  side: 'a' | 'b',
  y: number,
  axis: SceneAxis,
  written: (x: number) => string,
  linkOf: (side: 'a' | 'b') => string,
  colors: ChartColors,
): Mark {
  const { mean, n } = group;
  const [low, high] = endsOf(group);
  const middle = y + 46;
  const fill = side === 'a' ? colors.spruce : colors.steel;
  const title = `${name}  ·  n = ${n}`;
  return {
    label: mean === null ? title : `${title}, ${written(mean)}`,
    link: linkOf(side),
    shapes: [
      {
        kind: 'path',
        d: box(0, y, axis.at(axis.most) + EDGE, ROW - 2, 6),
        fill: colors.card,
        opacity: 0.01,
      },
      { kind: 'text', x: 0, y: y + 18, text: title, size: 15, weight: 700, fill: colors.ink },
      ...(mean === null || low === undefined || high === undefined
        ? []
        : [
            { kind: 'path' as const, d: box(axis.at(low), middle - 9, Math.max(3, axis.at(high) - axis.at(low)), 18, 9), fill, opacity: 0.55 }, // prettier-ignore
            { kind: 'path' as const, d: side === 'a' ? disc(axis.at(mean), middle, 8) : diamond(axis.at(mean), middle, 10), fill: colors.card, stroke: colors.ink, strokeWidth: 2.5 }, // prettier-ignore
            { kind: 'text' as const, x: axis.at(mean), y: middle - 15, text: written(mean), size: 15, weight: 700, fill: colors.ink, anchor: 'middle' as const }, // prettier-ignore
          ]),
    ],
  };
}

function differenceMarks(
  { low, mean, high }: NonNullable<ComparisonReport['difference']>,
  names: GroupNames,
  top: number,
  written: (x: number) => string,
  colors: ChartColors,
  width: number,
): Mark[] {
  const axis = axisOf([low, high, 0], EDGE, width - EDGE, 6);
  const confirmed = low > 0 || high < 0;
  const bottom = top + HEAD + 76;
  const middle = top + HEAD + 46;
  const nought = axis.at(0);
  return [
    grid(axis, { top: top + HEAD - 8, bottom, title: '' }, written, colors),
    {
      label: `${written(mean)}, ${written(low)} – ${written(high)}`,
      shapes: [
        {
          kind: 'text',
          x: 0,
          y: top + 10,
          text: text.differenceIs({ a: names.a, b: names.b }),
          size: 15,
          weight: 700,
          fill: colors.ink,
        },
        {
          kind: 'path',
          d: line(nought, top + HEAD - 8, nought, bottom),
          stroke: colors.ink,
          strokeWidth: 2.5,
        },
        {
          kind: 'path',
          d: box(axis.at(low), middle - 10, Math.max(3, axis.at(high) - axis.at(low)), 20, 10),
          fill: confirmed ? colors.spruce : colors.card,
          stroke: confirmed ? colors.spruce : colors.steel,
          strokeWidth: 2,
          ...(confirmed ? {} : { pattern: { kind: 'hatch' as const, ink: colors.steel } }),
        },
        {
          kind: 'path',
          d: disc(axis.at(mean), middle, 8),
          fill: colors.card,
          stroke: colors.ink,
          strokeWidth: 2.5,
        },
        {
          kind: 'text',
          x: axis.at(mean),
          y: middle - 17,
          text: written(mean),
          size: 15,
          weight: 700,
          fill: colors.ink,
          anchor: 'middle',
        },
      ],
    },
  ];
}

import type { ComparedGroup, ComparisonReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/compare.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT, namesAxis, TITLE } from '../engine/axes.ts';
import { uprightLayer } from '../engine/bands.ts';
import type { AxisPlot, Word } from '../plot.ts';
import { type GroupNames, measureWriter } from './compare-words.ts';

const ROW = 78;
/** Room on each side of the ends, as a part of their range. */
const AIR = 0.06;
const SIDES = ['a', 'b'] as const;

/** Both groups on one axis: the mean, and one standard deviation on each side of it, but not below zero. */
export function drawGroups(
  view: ComparisonReport,
  names: GroupNames,
  format: Format,
  linkOf: (side: 'a' | 'b') => string,
): AxisPlot {
  const { value } = measureWriter(view.by, format);
  const groups = SIDES.map((side, at) => ({ ...view[side], ...endsOf(view[side]), side, at, title: `${names[side]}  ·  n = ${view[side].n}` }));
  const known = groups.flatMap(({ mean, ...group }) => (mean === null ? [] : [{ ...group, mean }]));
  return {
    height: SIDES.length * ROW + FOOT + TITLE,
    lying: true,
    x: { ...around(known.flatMap(({ low, high }) => [low, high])), written: value, title: text.axis[view.by] },
    y: namesAxis(['', '']),
    layers: [
      { kind: 'bars', thick: 18, radius: 9, bars: known.map(({ at, low, high, side }) => ({ at: at + 0.15, from: low, to: high, paint: { tone: side === 'a' ? 'spruce' : 'steel', strength: 0.55 } })) },
      {
        kind: 'points',
        points: known.map(({ at, mean, side }) => ({ x: mean, y: at + 0.15, look: { shape: side === 'a' ? 'circle' : 'rectRot', size: 9, paint: 'card', edge: 'ink' } })),
      },
    ],
    words: [
      ...groups.map(({ at, title }): Word => ({ x: 'start', y: at, dx: 16, dy: -26, text: title, bold: true, size: 15 })),
      ...known.map(({ at, mean }): Word => ({ x: mean, y: at + 0.15, dy: -21, align: 'center', text: value(mean), bold: true, size: 15 })),
    ],
    marks: groups.map(({ at, side, mean, title }) => ({
      label: mean === null ? title : `${title}, ${value(mean)}`,
      link: linkOf(side),
      y: [at - 0.5, at + 0.5],
    })),
  };
} // prettier-ignore

/** The difference of the means with its confidence interval, on an axis with its zero. */
export function drawDifference(view: ComparisonReport, names: GroupNames, format: Format): AxisPlot[] {
  if (!view.difference) return [];
  const { gap } = measureWriter(view.by, format);
  const { low, mean, high } = view.difference;
  const confirmed = low > 0 || high < 0;
  return [
    {
      height: ROW + FOOT + TITLE,
      lying: true,
      x: { ...around([low, high, 0]), written: gap },
      y: { ...namesAxis(['']), min: -0.4 },
      layers: [
        uprightLayer(0, [-0.4, 0.5], 'ink', 2.5),
        {
          kind: 'bars',
          thick: 20,
          radius: 10,
          edge: confirmed ? 'spruce' : 'steel',
          bars: [{ at: 0.1, from: low, to: high, paint: confirmed ? 'spruce' : { pattern: 'hatch', ink: 'steel', on: 'card' } }],
        },
        { kind: 'points', points: [{ x: mean, y: 0.1, look: { shape: 'circle', size: 9, paint: 'card', edge: 'ink' } }] },
      ],
      words: [
        { x: 'start', y: 'top', dx: 16, dy: -14, text: text.differenceIs({ a: names.a, b: names.b }), bold: true, size: 15 },
        { x: mean, y: 0.1, dy: -22, align: 'center', text: gap(mean), bold: true, size: 15 },
      ],
      marks: [{ label: `${gap(mean)}, ${gap(low)} – ${gap(high)}`, link: '', y: [-0.4, 0.5] }],
      room: { top: 28 },
    },
  ];
} // prettier-ignore

function endsOf({ mean, sd }: ComparedGroup): { low: number; high: number } {
  return { low: Math.max(0, (mean ?? 0) - (sd ?? 0)), high: (mean ?? 0) + (sd ?? 0) };
}

function around(ends: readonly number[]): { min: number; max: number } {
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const air = (high - low || Math.abs(high) || 1) * AIR;
  return { min: low - air, max: high + air };
}

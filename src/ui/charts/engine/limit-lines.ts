/** A measure of one batch after another, with the levels that it is held against. */
import type { Axis, AxisPlot, Mark } from '../plot.ts';
import { namesAxis } from './axes.ts';
import { levelLayer } from './bands.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';

interface Measured {
  name: string;
  value: number;
  /** Whether it is out of the ordinary. */
  out: boolean;
  /** The value in words. */
  words: string;
  link: string;
}

/** Room around the values and levels, as a part of their range. */
const AIR = 0.1;
const LETTER = 7.6;

/** The levels are named beside the plot: on it a name would cover the newest mark. */
export function limitLines(
  measured: readonly Measured[],
  levels: readonly { value: number; label: string }[],
  y: Axis,
): AxisPlot {
  const values = [...measured.map(({ value }) => value), ...levels.map(({ value }) => value)];
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const air = (high - low || Math.abs(high) || 1) * AIR;
  const x = namesAxis(measured.map(({ name }) => name));
  return {
    height: 320,
    x,
    y: { ...y, min: low - air, max: high + air },
    layers: [
      ...levels.map(({ value }) => levelLayer(value, [x.min ?? 0, x.max ?? 0], 'muted', 1.5, [6, 5])),
      { kind: 'line', ink: 'steel', width: 1.5, points: measured.map(({ value }, at) => ({ x: at, y: value })) },
      {
        kind: 'points',
        points: measured.map(({ value, out }, at) => ({
          x: at,
          y: value,
          look: out ? { shape: 'rectRot', size: 10, paint: 'ink' } : { shape: 'circle', size: 6, paint: 'spruce' },
        })),
      },
    ],
    words: levels.map(({ value, label }) => ({ x: x.max ?? 0, y: value, dx: 8, text: label, tone: 'muted', bold: true })),
    marks: measured.map(({ name, value, words, link }, at): Mark => ({
      label: common.named({ name, text: words }),
      link,
      x: [at, at],
      y: [value, value],
    })),
    room: { right: LETTER * Math.max(...levels.map(({ label }) => label.length)) + 12 },
  };
} // prettier-ignore

import { addDays, daysBetween } from '../../../core/values/dates.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from './axes.ts';
import type { ChartColors } from './colors.ts';
import { line, type Mark, type TextShape } from './scene.ts';
import type { SceneAxis } from './scene-axis.ts';

/** An axis of days, each in a column of its own. */
export interface DayAxis {
  from: string;
  days: number;
  left: number;
  right: number;
  /** Width of a day. */
  step: number;
  /** Center of a day's column. */
  at: (on: string) => number;
}

/** Margins for numbers on the left, and for a label that extends beyond the last day. */
const LEFT = 44;
const RIGHT = 20;
const LABEL = 78;
const INTERVALS = [1, 2, 7, 14, 28, 56, 112];

export function dayAxis(from: string, to: string, width: number): DayAxis {
  const days = daysBetween(from, to) + 1;
  const right = width - RIGHT;
  const step = (right - LEFT) / days;
  const at = (on: string): number => LEFT + (daysBetween(from, on) + 0.5) * step;
  return { from, days, left: LEFT, right, step, at };
}

/** Date labels, as many as fit; at intervals of a week or more they are Mondays. */
export function dayMarks(axis: DayAxis, foot: number, format: Format, colors: ChartColors): Mark {
  const every = INTERVALS.find((days) => days * axis.step >= LABEL) ?? axis.days;
  const monday = (8 - new Date(`${axis.from}T00:00:00Z`).getUTCDay()) % 7;
  const first = every >= 7 && monday < axis.days ? monday : 0;
  const count = Math.ceil((axis.days - first) / every);
  return {
    shapes: Array.from({ length: count }, (_, i) => addDays(axis.from, first + i * every)).flatMap((on) => [
      { kind: 'path' as const, d: line(axis.at(on), foot, axis.at(on), foot + 5), stroke: colors.steel },
      dateText(axis, on, foot, format, colors),
    ]),
  };
}

/** Centered under its day, but kept within the picture. */
function dateText(axis: DayAxis, on: string, foot: number, format: Format, colors: ChartColors): TextShape {
  const x = axis.at(on);
  const near = x > axis.right - LABEL / 3;
  return {
    kind: 'text',
    x: near ? axis.right + RIGHT : x,
    y: foot + 22,
    text: format.monthDay(on),
    size: FONT_SIZE,
    fill: colors.muted,
    anchor: near ? 'end' : 'middle',
  };
}

/** Integer labels on the left with grid lines. */
export function countMarks(axis: DayAxis, counts: SceneAxis, colors: ChartColors): Mark {
  return {
    shapes: counts.ticks
      .filter((tick) => Number.isInteger(tick))
      .flatMap((tick) => [
        {
          kind: 'path' as const,
          d: line(axis.left, counts.at(tick), axis.right, counts.at(tick)),
          stroke: tick === 0 ? colors.steel : colors.line,
        },
        {
          kind: 'text' as const,
          x: axis.left - 8,
          y: counts.at(tick) + 5,
          text: String(tick),
          size: FONT_SIZE,
          fill: colors.muted,
          anchor: 'end' as const,
        },
      ]),
  };
}

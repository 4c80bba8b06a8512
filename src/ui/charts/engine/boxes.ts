/** Boxes with whiskers, and ranges with ends, of lying bars. */
import type { Bar, Layer, Look } from '../plot.ts';
import type { Paint, Tone } from './paint.ts';

/** A distribution in the row `at`. */
export interface Box {
  at: number;
  low: number;
  q1: number;
  median: number;
  q3: number;
  high: number;
}

interface BoxLook {
  /** Height of a box in CSS pixels. */
  thick: number;
  paint: Paint;
  /** Of the line at the median. */
  median: Tone;
  whiskers?: boolean;
}

/** A box from the first to the third quartile, a line at the median, whiskers from end to end. */
export function boxLayers(
  boxes: readonly Box[],
  { thick, paint, median, whiskers = true }: BoxLook,
): Layer[] {
  const bar = (size: number, edge: Tone): Look => ({ shape: 'bar', size, paint: 'none', edge });
  const reach = boxes.flatMap(({ at, low, q1, q3, high }): Bar[] => [
    { at, from: low, to: q1, paint: 'ink' },
    { at, from: q3, to: high, paint: 'ink' },
  ]);
  const ends = boxes.flatMap(({ at, low, high }) => [low, high].map((x) => ({ x, y: at, look: bar(thick / 3, 'ink') }))); // prettier-ignore
  return [
    ...(whiskers
      ? [
          { kind: 'bars' as const, thick: 2, bars: reach },
          { kind: 'points' as const, points: ends },
        ]
      : []),
    { kind: 'bars', thick, edge: 'ink', radius: 2, bars: boxes.map(({ at, q1, q3 }) => ({ at, from: q1, to: q3, paint })) }, // prettier-ignore
    {
      kind: 'points',
      points: boxes.map((box) => ({ x: box.median, y: box.at, look: bar(thick / 2, median) })),
    },
  ];
}

/** A range in the row `at`. */
export interface RangeRow {
  at: number;
  low: number;
  high: number;
}

/** A bar from end to end, and an upright line at each end. */
export function rangeLayers(ranges: readonly RangeRow[], tone: Tone, thick: number): Layer[] {
  const look: Look = { shape: 'bar', size: 5 + thick / 2, paint: 'none', edge: tone };
  return [
    { kind: 'bars', thick, bars: ranges.map(({ at, low, high }) => ({ at, from: low, to: high, paint: tone })) },
    { kind: 'points', points: ranges.flatMap(({ at, low, high }) => [low, high].map((x) => ({ x, y: at, look }))) },
  ];
} // prettier-ignore

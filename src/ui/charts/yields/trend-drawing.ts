import type { SpeciesYield } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { namesAxis, sharesAxis } from '../engine/axes.ts';
import { bandLayers } from '../engine/bands.ts';
import type { AxisPlot, Bar } from '../plot.ts';
import { FEW } from '../story.ts';

/** Maximum seasons side by side in a plot; older ones are in the table. */
const MAX_SEASONS = 8;
/** Least width of a plot, and of a season in it, so that shares do not overlap; in CSS pixels. */
const [LEAST, SCALE, SEASON] = [205, 60, 42];
/** Room around the shares, as a part of their range. */
const AIR = 0.25;

/** The least width of the plots beside each other. */
export function trendWidth(shown: readonly SpeciesYield[]): number {
  const most = Math.min(MAX_SEASONS, Math.max(...shown.map(({ seasons }) => seasons.length)));
  return Math.max(LEAST, SCALE + most * SEASON);
}

/** The seasons of one species on its own scale, because seasons are compared within a species. */
export function drawTrend(
  { code, name, seasons, published }: SpeciesYield,
  { season, named }: { season: number; named: boolean },
  format: Format,
  linkOf: (species: string, season: number) => string,
): AxisPlot {
  const shown = seasons.slice(-MAX_SEASONS);
  const x = namesAxis(shown.map((one) => [String(one.season), `n ${one.n}`]));
  const boxed = shown.flatMap((one, at) => (one.n >= FEW ? [{ ...one, at }] : []));
  const ends = [
    ...shown.flatMap(({ n, q1, median, q3 }) => (n < FEW ? [median] : [q1, q3])),
    ...(published ? [published.low, published.high] : []),
  ];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const air = Math.max(0.01, (high - low) * AIR);
  const [left, right] = [x.min ?? 0, x.max ?? 0];
  return {
    height: named ? 260 : 200,
    x,
    y: { ...sharesAxis(format), min: Math.max(0, low - air), max: high + air },
    layers: [
      ...(published ? bandLayers([{ x: left, ...published }, { x: right, ...published }], { tone: 'steel', strength: 0.3 }, 'steel', 0) : []),
      {
        kind: 'bars',
        thick: 22,
        radius: 4,
        bars: boxed.map(({ at, q1, q3, season: of }): Bar => ({
          at,
          from: q1,
          to: Math.max(q3, q1 + air / 40),
          paint: of === season ? 'spruce' : { tone: 'steel', strength: 0.7 },
        })),
      },
      {
        kind: 'points',
        points: shown.map(({ median }, at) => ({ x: at, y: median, look: { shape: 'circle', size: 5.5, paint: 'card', edge: 'ink' } })),
      },
    ],
    words: [
      ...shown.map(({ n, q3, median, season: of }, at) => ({
        x: at,
        y: n >= FEW ? q3 : median,
        dy: -15,
        align: 'center' as const,
        text: format.share(median, 0),
        ...(of === season ? { bold: true as const } : {}),
      })),
      ...(named ? [{ x: 'start' as const, y: 'top' as const, dy: -18, text: name, size: 16, bold: true as const }] : []),
    ],
    marks: shown.map(({ n, median, season: of }, at) => ({
      label: `${name} ${of}: ${format.share(median)}, ${n >= FEW ? `n = ${n}` : text.tooFew({ n })}`,
      link: linkOf(code, of),
      x: [at - 0.5, at + 0.5],
    })),
    room: { top: named ? 32 : 8 },
  };
} // prettier-ignore

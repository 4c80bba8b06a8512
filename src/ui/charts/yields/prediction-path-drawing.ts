import type { PredictionPath } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import { bandBefore, isInside, roomFor } from './prediction-band.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { axisOf, type SceneAxis } from '../drawing/scene-axis.ts';
import { diamond, disc, line, type Mark, type Scene } from '../drawing/scene.ts';

const PLOT = 300;
const [LEFT, RIGHT, FOOT, HEAD] = [64, 16, 50, 8];

type Steps = PredictionPath['steps'];

/** The predictive band along the season's animals, each as a point. */
export function drawPath({ name, steps, points }: PredictionPath, format: Format, colors: ChartColors, width: number): Scene {
  const room = roomFor(steps);
  const clamped = points.map(({ share }) => Math.min(room.high, Math.max(room.low, share)));
  const ends = steps.flatMap(({ low, high }) => [low, high]);
  const y = axisOf([...ends, ...clamped], HEAD + PLOT, HEAD, 6);
  const most = steps.at(-1)?.n ?? 1;
  const x = (n: number): number => LEFT + (n / most) * (width - LEFT - RIGHT - 12) + 6;
  const dots = points.map((point, i): Mark => {
    const inside = isInside(point, bandBefore(steps, point));
    const [cx, cy] = [x(point.nth), y.at(clamped[i] ?? 0)];
    return {
      link: `/table/${point.ticket}`,
      quiet: true,
      label: `${point.ticket}, ${format.day(point.on)}: ${format.share(point.share)}`,
      shapes: [
        {
          kind: 'path',
          d: inside ? disc(cx, cy, 5) : diamond(cx, cy, 7),
          fill: inside ? colors.spruce : colors.ink,
          stroke: colors.card,
          strokeWidth: 1,
        },
      ],
    };
  });
  return {
    width,
    height: HEAD + PLOT + FOOT,
    marks: [ground(y, most, x, name, format, colors, width), band(steps, x, y, colors), ...dots],
  };
} // prettier-ignore

function ground(
  y: SceneAxis,
  most: number,
  x: (n: number) => number,
  name: string,
  format: Format,
  colors: ChartColors,
  width: number,
): Mark {
  const print = { kind: 'text' as const, size: FONT_SIZE, fill: colors.muted };
  const counts = axisOf([0, most], 0, 1, 6).ticks.filter((n) => n <= most && Number.isInteger(n));
  const bottom = HEAD + PLOT;
  return {
    shapes: [
      ...y.ticks.flatMap((share): Mark['shapes'] => [
        { kind: 'path', d: line(LEFT, y.at(share), width - RIGHT, y.at(share)), stroke: colors.line, strokeWidth: 1 },
        { ...print, x: LEFT - 8, y: y.at(share) + 5, anchor: 'end', text: format.share(share, 0) },
      ]),
      ...counts.map((n): Mark['shapes'][number] => ({ ...print, x: x(n), y: bottom + 20, anchor: 'middle', text: String(n) })),
      { ...print, x: (LEFT + width - RIGHT) / 2, y: bottom + 43, anchor: 'middle', text: text.pathAxis({ species: name }) },
    ],
  }; // prettier-ignore
}

/** Filled between low and high, with its mean, and the initial band continued as dashed lines. */
function band(steps: Steps, x: (n: number) => number, y: SceneAxis, colors: ChartColors): Mark {
  const [first, last] = [steps[0], steps.at(-1)];
  if (!first || !last) return { shapes: [] };
  const along = (end: 'low' | 'mean' | 'high', of: Steps): string =>
    of.map((step) => `${x(step.n).toFixed(1)} ${y.at(step[end]).toFixed(1)}`).join('L');
  const before = (share: number): Mark['shapes'][number] => ({
    kind: 'path',
    d: line(x(0), y.at(share), x(last.n), y.at(share)),
    stroke: colors.muted,
    strokeWidth: 1.5,
    dash: [6, 5],
  });
  return {
    shapes: [
      {
        kind: 'path',
        d: `M${along('high', steps)}L${along('low', steps.toReversed())}z`,
        fill: `color-mix(in srgb, ${colors.spruce} 20%, ${colors.card})`,
        stroke: colors.spruce,
        strokeWidth: 1.5,
      },
      before(first.low),
      before(first.high),
      { kind: 'path', d: `M${along('mean', steps)}`, stroke: colors.spruce, strokeWidth: 3 },
    ],
  };
}

import type { PredictionPath } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { countsAxis, sharesAxis } from '../engine/axes.ts';
import { bandLayers, levelLayer } from '../engine/bands.ts';
import type { AxisPlot, Look } from '../plot.ts';
import { bandBefore, isInside, roomFor } from './prediction-band.ts';

const INSIDE: Look = { shape: 'circle', size: 5, paint: 'spruce' };
const OUTSIDE: Look = { shape: 'rectRot', size: 7, paint: 'ink' };

/** The predictive band along the season's animals, each as a point; the initial band continues as dashed lines. */
export function drawPath({ name, steps, points }: PredictionPath, format: Format): AxisPlot {
  const room = roomFor(steps);
  const drawn = points.map((point) => ({
    ...point,
    y: Math.min(room.high, Math.max(room.low, point.share)),
    look: isInside(point, bandBefore(steps, point)) ? INSIDE : OUTSIDE,
  }));
  const ends = [...steps.flatMap(({ low, high }) => [low, high]), ...drawn.map(({ y }) => y)];
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const air = Math.max(0.005, (high - low) * 0.06);
  const most = steps.at(-1)?.n ?? 1;
  const [first] = steps;
  const across = [0, most] as const;
  return {
    height: 358,
    x: { ...countsAxis(format, text.pathAxis({ species: name })), min: -most / 80, max: most * (1 + 1 / 80) },
    y: { ...sharesAxis(format), min: Math.max(0, low - air), max: high + air },
    layers: [
      ...bandLayers(steps.map((step) => ({ ...step, x: step.n })), { tone: 'spruce', strength: 0.2 }, 'spruce', 1.5),
      ...(first ? [first.low, first.high].map((share) => levelLayer(share, across, 'muted', 1.5, [6, 5])) : []),
      { kind: 'line', ink: 'spruce', width: 3, points: steps.map(({ n, mean }) => ({ x: n, y: mean })) },
      { kind: 'points', points: drawn.map(({ nth, y, look }) => ({ x: nth, y, look })) },
    ],
    marks: drawn.map(({ ticket, on, share, nth, y }) => ({
      label: `${ticket}, ${format.day(on)}: ${format.share(share)}`,
      link: `/table/${ticket}`,
      quiet: true,
      x: [nth, nth],
      y: [y, y],
    })),
  };
} // prettier-ignore

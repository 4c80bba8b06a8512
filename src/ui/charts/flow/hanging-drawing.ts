import type { FlowReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { countMarks, dayAxis, type DayAxis, dayMarks } from '../drawing/day-axis.ts';
import { axisOf, type SceneAxis } from '../drawing/scene-axis.ts';
import { disc, line, type Mark, type Scene, type TextShape } from '../drawing/scene.ts';

const TOP = 34;
const FOOT = 300;
const HEIGHT = 332;

type Drawn = Pick<FlowReport, 'days' | 'forecast' | 'places'>;

/** The line of animals hanging, the capacity, and the forecast band. */
export function drawHanging(
  { days, forecast, places }: Drawn,
  format: Format,
  colors: ChartColors,
  width: number,
): Scene {
  const from = days[0]?.on ?? '';
  const axis = dayAxis(from, forecast.at(-1)?.on ?? days.at(-1)?.on ?? from, width);
  const counts = axisOf(
    [0, places ?? 0, ...days.map(({ hanging }) => hanging), ...forecast.map(({ high }) => high)],
    FOOT,
    TOP,
    5,
  );
  return {
    width,
    height: HEIGHT,
    marks: [
      countMarks(axis, counts, colors),
      ...(forecast.length > 0 ? [bandMark({ days, forecast }, axis, counts, colors)] : []),
      lineMark(days, axis, counts, colors),
      ...(places === null ? [] : [placesMark(places, axis, counts, colors)]),
      ...(forecast.length > 0 ? [todayMark(days, axis, counts, colors)] : []),
      dayMarks(axis, FOOT, format, colors),
    ],
  };
}

type Point = readonly [number, number];
const path = (points: readonly Point[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(1)} ${y.toFixed(1)}`).join('');

function lineMark(days: Drawn['days'], axis: DayAxis, counts: SceneAxis, colors: ChartColors): Mark {
  const points = days.map(({ on, hanging }): Point => [axis.at(on), counts.at(hanging)]);
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last) return { shapes: [] };
  const ground: Point[] = [
    [last[0], counts.at(0)],
    [first[0], counts.at(0)],
  ];
  return {
    shapes: [
      { kind: 'path', d: `${path([...points, ...ground])}z`, fill: colors.spruce, opacity: 0.14 },
      { kind: 'path', d: path(points), stroke: colors.spruce, strokeWidth: 2.5 },
      { kind: 'path', d: disc(last[0], last[1], 5), fill: colors.spruce },
    ],
  };
}

/** Starts at the present number, which is known. */
function bandMark(
  { days, forecast }: Pick<Drawn, 'days' | 'forecast'>,
  axis: DayAxis,
  counts: SceneAxis,
  colors: ChartColors,
): Mark {
  const now = days.at(-1);
  const start: Point[] = now ? [[axis.at(now.on), counts.at(now.hanging)]] : [];
  const along = (of: 'low' | 'mean' | 'high'): Point[] =>
    forecast.map((day): Point => [axis.at(day.on), counts.at(day[of])]);
  return {
    shapes: [
      {
        kind: 'path',
        d: `${path([...start, ...along('high'), ...along('low').toReversed()])}z`,
        stroke: colors.steel,
        pattern: { kind: 'hatch', ink: colors.line },
      },
      {
        kind: 'path',
        d: path([...start, ...along('mean')]),
        stroke: colors.spruce,
        strokeWidth: 2.5,
        dash: [7, 5],
      },
    ],
  };
}

function placesMark(places: number, axis: DayAxis, counts: SceneAxis, colors: ChartColors): Mark {
  const y = counts.at(places);
  return {
    shapes: [
      {
        kind: 'path',
        d: line(axis.left, y, axis.right, y),
        stroke: colors.blaze,
        strokeWidth: 2,
        dash: [9, 5],
      },
      { ...label(colors.blaze), x: axis.left + 8, y: y - 8, text: text.places({ n: places }), weight: 700 },
    ],
  };
}

function todayMark(days: Drawn['days'], axis: DayAxis, counts: SceneAxis, colors: ChartColors): Mark {
  const now = days.at(-1);
  if (!now) return { shapes: [] };
  const x = axis.at(now.on);
  return {
    shapes: [
      { kind: 'path', d: line(x, TOP - 12, x, FOOT), stroke: colors.muted, strokeWidth: 1.5, dash: [3, 4] },
      { ...label(colors.ink), x: x - 8, y: TOP - 16, text: text.today, anchor: 'end' },
      { ...label(colors.muted), x: x + 8, y: TOP - 16, text: text.ahead },
      {
        ...label(colors.ink),
        x: x - 9,
        y: counts.at(now.hanging) - 9,
        text: String(now.hanging),
        weight: 700,
        anchor: 'end',
      },
    ],
  };
}

function label(fill: string): Pick<TextShape, 'kind' | 'size' | 'fill'> {
  return { kind: 'text', size: FONT_SIZE, fill };
}

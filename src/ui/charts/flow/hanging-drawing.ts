import type { FlowReport } from '../../../bridge/contract.ts';
import { daysBetween } from '../../../core/values/dates.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { countsAxis } from '../engine/axes.ts';
import { bandLayers, levelLayer, uprightLayer } from '../engine/bands.ts';
import type { AxisPlot, Layer, Mark, Word } from '../plot.ts';
import { daysAxis } from './day-axis.ts';

type Drawn = Pick<FlowReport, 'days' | 'forecast' | 'places'>;

/** Room above the highest count, as a part of it. */
const AIR = 1.08;

/** The line of animals hanging, the capacity, and the forecast band, which starts at the present number. */
export function drawHanging({ days, forecast, places }: Drawn, format: Format): AxisPlot {
  const from = days[0]?.on ?? '';
  const now = days.at(-1);
  const at = (on: string): number => daysBetween(from, on);
  const x = daysAxis(from, forecast.at(-1)?.on ?? now?.on ?? from, format);
  const ends: [number, number] = [x.min ?? 0, x.max ?? 0];
  const top = AIR * Math.max(1, places ?? 0, ...days.map(({ hanging }) => hanging), ...forecast.map(({ high }) => high)); // prettier-ignore
  const ahead = forecast.length > 0;
  const start = now ? [{ on: now.on, low: now.hanging, mean: now.hanging, high: now.hanging }] : [];
  const expected = [...start, ...forecast].map((day) => ({ ...day, x: at(day.on) }));
  const layers: Layer[] = [
    ...(ahead ? bandLayers(expected, { pattern: 'hatch', ink: 'line', on: 'card' }, 'steel', 1) : []),
    {
      kind: 'line',
      ink: 'spruce',
      width: 2.5,
      points: days.map(({ on, hanging }) => ({ x: at(on), y: hanging })),
      fill: { paint: { tone: 'spruce', strength: 0.14 }, to: 'zero' },
    },
    ...(ahead ? [{ kind: 'line' as const, ink: 'spruce' as const, width: 2.5, dash: [7, 5], points: expected.map((day) => ({ x: day.x, y: day.mean })) }] : []), // prettier-ignore
    ...(places === null ? [] : [levelLayer(places, ends, 'blaze', 2, [9, 5])]),
    ...(ahead && now ? [uprightLayer(at(now.on), [0, top], 'muted', 1.5, [3, 4])] : []),
    ...(now
      ? [{ kind: 'points' as const, points: [{ x: at(now.on), y: now.hanging, look: { shape: 'circle' as const, size: 5, paint: 'spruce' as const } }] }] // prettier-ignore
      : []),
  ];
  const words: Word[] = [
    ...(places === null ? [] : [{ x: ends[0], y: places, dx: 8, dy: -11, text: text.places({ n: places }), tone: 'blaze' as const, bold: true as const }]), // prettier-ignore
    ...(ahead && now
      ? [
          { x: at(now.on), y: 'top' as const, dx: -8, dy: -10, align: 'right' as const, text: text.today },
          { x: at(now.on), y: 'top' as const, dx: 8, dy: -10, text: text.ahead, tone: 'muted' as const },
          { x: at(now.on), y: now.hanging, dx: -9, dy: -13, align: 'right' as const, text: format.number(now.hanging), bold: true as const }, // prettier-ignore
        ]
      : []),
  ];
  const mark = (on: string, said: string): Mark => ({ label: common.named({ name: format.day(on), text: said }), link: '', quiet: true, x: [at(on) - 0.5, at(on) + 0.5] }); // prettier-ignore
  return {
    height: 332,
    x,
    y: { ...countsAxis(format, text.waitAnimals), max: top },
    layers,
    words,
    marks: [
      ...days.map(({ on, hanging }) => mark(on, format.number(hanging))),
      ...forecast.map(({ on, low, mean, high }) => mark(on, `${format.number(mean)} (${format.number(low)}–${format.number(high)})`)),
    ],
    room: { top: 24 },
  }; // prettier-ignore
}

import type { FlowReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { FEW, type SceneStory } from '../story.ts';
import { axisOf } from '../drawing/scene-axis.ts';
import { box, line, type Mark, type Scene } from '../drawing/scene.ts';
import { waitQuantile, type WaitBin, waitBins } from './wait-bins.ts';

const TOP = 28;
const FOOT = 220;
const HEIGHT = 272;
const LEFT = 44;
const RIGHT = 12;
const MAX_BAR_WIDTH = 56;
/** Width of the label below a bar. */
const LABEL = 34;
/** A wait above this multiple of the median is long. Our own choice. */
const LONG = 2;

/** Animals by days of waiting. `linkOf` links to the animals of a bar. */
export function waitsStory(
  view: FlowReport,
  format: Format,
  linkOf: (least: number, most: number) => string,
): SceneStory {
  const { waits } = view;
  const count = waits.reduce((total, { animals }) => total + animals, 0);
  return {
    title: text.waitsTitle,
    finding: waitsFinding(waits, format),
    n: text.readyN({ n: count }),
    notes: [text.waitsKey],
    sources: [],
    table: {
      head: [text.waitDays, text.waitAnimals],
      rows: waits.map(({ days, animals }) => [String(days), String(animals)]),
      links: waits.map(({ days }) => linkOf(days, days)),
      plain: waits.map(({ days, animals }) => [days, animals]),
    },
    fileName: `days-to-ready-${view.season}`,
    scene: count < 2 ? null : (colors, width) => drawWaits(waitBins(waits), linkOf, colors, width),
  };
}

/** The interquartile range of the days, and the number of long waits. */
function waitsFinding(waits: FlowReport['waits'], format: Format): string {
  const count = waits.reduce((total, { animals }) => total + animals, 0);
  const only = waits[0];
  if (!only) return text.noWaits;
  if (count === 1) return text.oneWait({ n: only.days });
  if (waits.length === 1) return text.waitsSame({ n: count, all: only.days });
  const [low, middle, high] = [0.25, 0.5, 0.75].map((p) => waitQuantile(waits, p)) as [
    number,
    number,
    number,
  ];
  const whole = (days: number): string => format.number(days, Number.isInteger(days) ? 0 : 1);
  const than = Math.round(LONG * middle);
  const long = waits.filter(({ days }) => days > than).reduce((total, { animals }) => total + animals, 0);
  return [
    text.waits({ n: count, range: [...new Set([low, high].map(whole))].join('–'), middle: whole(middle) }),
    ...(long > 0 ? [text.waitsLong({ n: long, than })] : []),
    ...(count < FEW ? [text.waitsFew] : []),
  ].join(' ');
}

function drawWaits(
  bins: readonly WaitBin[],
  linkOf: (least: number, most: number) => string,
  colors: ChartColors,
  width: number,
): Scene {
  const counts = axisOf([0, ...bins.map(({ animals }) => animals)], FOOT, TOP, 4);
  const step = Math.min(MAX_BAR_WIDTH, (width - LEFT - RIGHT) / bins.length);
  const every = Math.max(1, Math.ceil((LABEL + 7 * ((bins[0]?.label.length ?? 1) - 1)) / step));
  const right = LEFT + step * bins.length;
  const print = { kind: 'text' as const, size: FONT_SIZE, fill: colors.muted };
  const scale: Mark = {
    shapes: [
      ...counts.ticks.filter(Number.isInteger).flatMap((tick) => [
        {
          kind: 'path' as const,
          d: line(LEFT, counts.at(tick), right, counts.at(tick)),
          stroke: tick === 0 ? colors.steel : colors.line,
        },
        { ...print, x: LEFT - 8, y: counts.at(tick) + 5, text: String(tick), anchor: 'end' as const },
      ]),
      { ...print, x: LEFT, y: FOOT + 46, text: text.waitsTitle },
    ],
  };
  // The last bar may cover many days, so it is always labeled.
  const last = bins.length - 1;
  const labelled = (i: number): boolean => i === last || (i % every === 0 && last - i >= every);
  const bars = bins.map(({ least, most, label, animals }, i): Mark => {
    const [x, top] = [LEFT + step * (i + 0.5), counts.at(animals)];
    const bar = Math.max(2, step - 5);
    return {
      ...(animals > 0
        ? { label: text.binSays({ one: label === '1', span: label, n: animals }), link: linkOf(least, most) }
        : {}),
      shapes: [
        { kind: 'path', d: box(x - bar / 2, top, bar, FOOT - top, 3), fill: colors.spruce },
        ...(animals > 0 && step >= 24
          ? [{ ...print, x, y: top - 6, text: String(animals), fill: colors.ink, anchor: 'middle' as const }]
          : []),
        ...(labelled(i) ? [{ ...print, x, y: FOOT + 21, text: label, anchor: 'middle' as const }] : []),
      ],
    };
  });
  return { width, height: HEIGHT, marks: [scale, ...bars] };
}

import type { FlowReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { countsAxis, namesAxis } from '../engine/axes.ts';
import type { AxisPlot } from '../plot.ts';
import { FEW, type ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';
import { waitQuantile, type WaitBin, waitBins } from './wait-bins.ts';

/** A wait above this multiple of the median is long. Our own choice. */
const LONG = 2;

/** Animals by days of waiting. `linkOf` links to the animals of a bar. */
export function waitsStory(
  view: FlowReport,
  format: Format,
  linkOf: (least: number, most: number) => string,
): ChartStory {
  const { waits } = view;
  const count = waits.reduce((total, { animals }) => total + animals, 0);
  return {
    title: text.waitsTitle,
    finding: waitsFinding(waits, format),
    n: text.readyN({ n: count }),
    notes: [text.waitsKey],
    sources: [],
    table: tableOf(
      waits,
      [
        column(text.waitDays, ({ days }) => String(days), ({ days }) => days),
        column(text.waitAnimals, ({ animals }) => String(animals), ({ animals }) => animals),
      ],
      ({ days }) => linkOf(days, days),
    ),
    fileName: `days-to-ready-${view.season}`,
    plots: count < 2 ? [] : [drawWaits(waitBins(waits), format, linkOf)],
  }; // prettier-ignore
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
  format: Format,
  linkOf: (least: number, most: number) => string,
): AxisPlot {
  const most = Math.max(...bins.map(({ animals }) => animals));
  const filled = bins.flatMap((bin, at) => (bin.animals > 0 ? [{ ...bin, at }] : []));
  const x = namesAxis(bins.map(({ label }) => label));
  return {
    height: 282,
    // The last bar may cover many days, so it is the first to be labeled.
    x: { ...x, title: text.waitsTitle, ticks: bins.map((_, at) => bins.length - 1 - at) },
    y: { ...countsAxis(format, text.waitAnimals), max: most * 1.12 },
    layers: [
      {
        kind: 'bars',
        thick: 56,
        radius: 3,
        bars: bins.map(({ animals }, at) => ({ at, from: 0, to: animals, paint: 'spruce' })),
      },
    ],
    words: filled.map(({ at, animals }) => ({
      x: at,
      y: animals,
      dy: -10,
      align: 'center',
      text: format.number(animals),
      within: 1,
    })),
    marks: filled.map(({ at, least, most: longest, label, animals }) => ({
      label: text.binSays({ one: label === '1', span: label, n: animals }),
      link: linkOf(least, longest),
      x: [at - 0.45, at + 0.45],
      y: [0, animals],
    })),
  };
}

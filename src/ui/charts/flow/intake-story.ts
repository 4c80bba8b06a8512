import type { FlowReport } from '../../../bridge/contract.ts';
import { daysBetween } from '../../../core/values/dates.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { countsAxis } from '../engine/axes.ts';
import type { AxisPlot } from '../plot.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';
import { daysAxis } from './day-axis.ts';

/** Below this number of animals a weekday pattern is not reported. Our own choice. */
const MIN_FOR_WEEKDAY = 30;

/** Intake by day. `linkOf` links to the animals of a day. */
export function intakeStory(view: FlowReport, format: Format, linkOf: (on: string) => string): ChartStory {
  const { days } = view;
  const busy = days.filter(({ taken, ready }) => taken > 0 || ready > 0);
  const count = days.reduce((total, { taken }) => total + taken, 0);
  return {
    title: text.intakeTitle,
    finding: intakeFinding(view, format),
    n: text.nAnimals({ n: count, over: days.length }),
    notes: [text.intakeKey],
    sources: [],
    table: tableOf(
      busy,
      [
        column(text.day, ({ on }) => format.day(on), ({ on }) => on),
        column(text.taken, ({ taken }) => String(taken), ({ taken }) => taken),
        column(text.ready, ({ ready }) => String(ready), ({ ready }) => ready),
      ],
      ({ on, taken }) => (taken > 0 ? linkOf(on) : ''),
    ),
    fileName: `intake-${view.season}`,
    plots: count === 0 ? [] : [drawIntake(view, format, linkOf)],
  }; // prettier-ignore
}

/** The busiest day, and the busiest weekday. */
function intakeFinding({ season, days }: FlowReport, format: Format): string {
  const count = days.reduce((total, { taken }) => total + taken, 0);
  const busiest = days.reduce((most, day) => (day.taken > (most?.taken ?? 0) ? day : most), days[0]);
  if (!busiest || count === 0) return text.empty({ season: String(season) });
  if (busiest.taken === count) return text.intakeOne({ n: count, day: format.day(busiest.on) });
  if (busiest.taken === 1) return text.intakeSpread({ n: count, over: days.length });
  const sentence = text.intakeBusiest({
    n: count,
    over: days.length,
    day: format.day(busiest.on),
    most: busiest.taken,
  });
  const byWeekday = new Array<number>(7).fill(0);
  for (const { on, taken } of days) byWeekday[new Date(`${on}T00:00:00Z`).getUTCDay()]! += taken;
  const most = Math.max(...byWeekday);
  const weekday = `d${byWeekday.indexOf(most)}` as 'd0';
  return count < MIN_FOR_WEEKDAY
    ? sentence
    : `${sentence} ${text.intakeWeekday({ weekday, share: format.share(most / count, 0) })}`;
}

/** A bar for each day. Its number stands above it where there is room, that of the busiest day always. */
function drawIntake(
  { days, forecast }: FlowReport,
  format: Format,
  linkOf: (on: string) => string,
): AxisPlot {
  const from = days[0]?.on ?? '';
  const at = (on: string): number => daysBetween(from, on);
  const most = Math.max(...days.map(({ taken }) => taken));
  const received = days.filter(({ taken }) => taken > 0);
  return {
    height: 222,
    // The forecast days stay empty here, so that this picture and the hanging chart have the same days.
    x: daysAxis(from, forecast.at(-1)?.on ?? days.at(-1)?.on ?? from, format),
    y: { ...countsAxis(format, text.waitAnimals), max: most * 1.15 },
    layers: [
      {
        kind: 'bars',
        radius: 3,
        bars: days.map(({ on, taken }) => ({ at: at(on), from: 0, to: taken, paint: 'spruce' })),
      },
    ],
    words: received.map(({ on, taken }) => ({
      x: at(on),
      y: taken,
      dy: -10,
      align: 'center',
      text: format.number(taken),
      ...(taken === most ? {} : { within: 1 }),
    })),
    marks: received.map(({ on, taken }) => ({
      label: text.barSays({ day: format.day(on), n: taken }),
      link: linkOf(on),
      x: [at(on) - 0.45, at(on) + 0.45],
      y: [0, taken],
    })),
  };
}

import type { FlowReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/flow.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { countMarks, dayAxis, dayMarks } from '../drawing/day-axis.ts';
import { axisOf } from '../drawing/scene-axis.ts';
import { box, type Mark, type Scene } from '../drawing/scene.ts';
import type { SceneStory } from '../story.ts';

const TOP = 24;
const FOOT = 190;
const HEIGHT = 222;
/** Minimum width of a day for a number above each bar. */
const ROOM_FOR_COUNT = 22;
/** Below this number of animals a weekday pattern is not reported. Our own choice. */
const MIN_FOR_WEEKDAY = 30;

/** Intake by day. `linkOf` links to the animals of a day. */
export function intakeStory(view: FlowReport, format: Format, linkOf: (on: string) => string): SceneStory {
  const { days } = view;
  const busy = days.filter(({ taken, ready }) => taken > 0 || ready > 0);
  const count = days.reduce((total, { taken }) => total + taken, 0);
  return {
    title: text.intakeTitle,
    finding: intakeFinding(view, format),
    n: text.nAnimals({ n: count, over: days.length }),
    notes: [text.intakeKey],
    sources: [],
    table: {
      head: [text.day, text.taken, text.ready],
      rows: busy.map(({ on, taken, ready }) => [format.day(on), String(taken), String(ready)]),
      links: busy.map(({ on, taken }) => (taken > 0 ? linkOf(on) : '')),
      plain: busy.map(({ on, taken, ready }) => [on, taken, ready]),
    },
    fileName: `intake-${view.season}`,
    scene: count === 0 ? null : (colors, width) => drawIntake(view, format, linkOf, colors, width),
  };
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

function drawIntake(
  { days, forecast }: FlowReport,
  format: Format,
  linkOf: (on: string) => string,
  colors: ChartColors,
  width: number,
): Scene {
  // The forecast days stay empty here, so that this picture and the hanging chart have the same days.
  const last = forecast.at(-1)?.on ?? days.at(-1)?.on ?? '';
  const axis = dayAxis(days[0]?.on ?? last, last, width);
  const most = Math.max(...days.map(({ taken }) => taken));
  const counts = axisOf([0, most], FOOT, TOP, 4);
  const bar = Math.min(40, Math.max(1.5, axis.step * 0.78));
  const bars = days
    .filter(({ taken }) => taken > 0)
    .map(({ on, taken }): Mark => {
      const x = axis.at(on);
      const counted = axis.step >= ROOM_FOR_COUNT || taken === most;
      return {
        label: text.barSays({ day: format.day(on), n: taken }),
        link: linkOf(on),
        shapes: [
          {
            kind: 'path',
            d: box(x - bar / 2, counts.at(taken), bar, FOOT - counts.at(taken), Math.min(3, bar / 3)),
            fill: colors.spruce,
          },
          ...(counted
            ? [
                {
                  kind: 'text' as const,
                  x,
                  y: counts.at(taken) - 6,
                  text: String(taken),
                  size: FONT_SIZE,
                  fill: colors.ink,
                  anchor: 'middle' as const,
                },
              ]
            : []),
        ],
      };
    });
  return {
    width,
    height: HEIGHT,
    marks: [countMarks(axis, counts, colors), ...bars, dayMarks(axis, FOOT, format, colors)],
  };
}

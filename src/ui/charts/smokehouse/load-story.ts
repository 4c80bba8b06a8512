/** The curve of a load as a chart: what each probe showed, and what it had to reach. */
import type { HeatFinding, LoadPage } from '../../../bridge/contract.ts';
import { sharedTicks } from '../engine/axes.ts';
import { levelLayer } from '../engine/bands.ts';
import type { AxisPlot } from '../plot.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';
import { text } from '../../../words/compiled/window/smokehouse-load.ts';

const LOWEST_F = 30;
const GAP = 'log.gap';
const MINUTE_MS = 60_000;

type Shown = Pick<LoadPage, 'name' | 'curves' | 'target' | 'readings' | 'now'>;

/** Whether two readings after one another are those before and after a gap of the log, give or take its rounded minutes. */
function spans({ at, with: { minutes } }: HeatFinding, before: string, after: string): boolean {
  if (at === null) return false;
  const ends = Date.parse(at) + Number(minutes) * MINUTE_MS;
  return Date.parse(before) <= Date.parse(at) && Date.parse(after) >= ends - MINUTE_MS;
}

/** @param when writes a moment in the shop's zone */
export function loadStory(load: Shown, when: (at: string) => string): ChartStory {
  const { name, curves, target, readings } = load;
  const points = curves.flatMap((one) => one.points.map((point) => ({ ...point, probe: one.probe })));
  const highest = Math.round(Math.max(0, ...curves.map(({ highestF }) => highestF ?? 0)) * 10) / 10;
  // With a Trichinella host in it, the lower figure of the table does not suffice.
  const need = Math.max(target.atOnceF, target.hostF ?? 0);
  const levels = [...new Set([need, ...target.cooling.stages.flatMap(({ fromF, toF }) => [fromF, toF])])];
  return {
    title: text.curve,
    finding: text.curveFinding({ n: points.length, f: highest, need }),
    n: text.readings({ n: readings }),
    notes: [],
    sources: [{ said: '', published: target.source.source }],
    table: tableOf(points, [
      column(text.probe, ({ probe }) => probe),
      column(
        text.time,
        ({ at }) => when(at),
        ({ at }) => at,
      ),
      column(
        text.inside,
        ({ f }) => text.degrees({ f }),
        ({ f }) => f,
      ),
    ]),
    fileName: `load-${name}`,
    plots: points.length > 1 ? [drawCurves(load, levels, Math.max(highest, ...levels) + 10, when)] : [],
  };
}

/** A line for each probe, interrupted where nothing was read, and the levels that it had to reach. */
function drawCurves(
  { curves, now }: Shown,
  levels: readonly number[],
  top: number,
  when: (at: string) => string,
): AxisPlot {
  const gaps = [now?.cook, now?.cooling].flatMap(
    (judged) => judged?.missing.filter(({ code }) => code === GAP) ?? [],
  );
  const times = curves.flatMap(({ points }) => points.map(({ at }) => Date.parse(at)));
  const [from, to] = [Math.min(...times), Math.max(...times)];
  return {
    height: 280,
    x: {
      min: from,
      max: to,
      ticks: sharedTicks(from, to, 7),
      written: (at) => when(new Date(at).toISOString()),
    },
    y: { min: LOWEST_F, max: top, ticks: levels, written: (f) => text.degrees({ f }) },
    layers: [
      ...levels.map((f) => levelLayer(f, [from, to], 'muted', 1, [5, 4])),
      ...curves.map(({ points }) => ({
        kind: 'line' as const,
        ink: 'spruce' as const,
        width: 2.5,
        points: points.flatMap(({ at, f }, i) => {
          const before = points[i - 1];
          const point = { x: Date.parse(at), y: f };
          return before && gaps.some((gap) => spans(gap, before.at, at)) ? [null, point] : [point];
        }),
      })),
    ],
    marks: curves.flatMap(({ probe, points }) =>
      points.map(({ at, f }) => ({
        label: `${probe}, ${when(at)}: ${text.degrees({ f })}`,
        link: '',
        quiet: true as const,
        x: [Date.parse(at), Date.parse(at)] as const,
        y: [f, f] as const,
      })),
    ),
  };
}

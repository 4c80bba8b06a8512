/** The curve of a load as a chart: what each probe showed, and what it had to reach. */
import type { HeatFinding, LoadPage } from '../../../bridge/contract.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { line, type Scene, type Shape } from '../drawing/scene.ts';
import type { SceneStory } from '../story.ts';
import { text } from '../../../words/compiled/window/smokehouse-load.ts';

const HEIGHT = 260;
const LEFT = 48;
const EDGE = 24;
const LOWEST_F = 30;
const TYPE = 13;
const GAP = 'log.gap';
const MINUTE_MS = 60_000;

/** Whether two readings after one another are those before and after a gap of the log, give or take its rounded minutes. */
function spans({ at, with: { minutes } }: HeatFinding, before: string, after: string): boolean {
  if (at === null) return false;
  const ends = Date.parse(at) + Number(minutes) * MINUTE_MS;
  return Date.parse(before) <= Date.parse(at) && Date.parse(after) >= ends - MINUTE_MS;
}

/** @param when writes a moment in the shop's zone */
export function loadStory(
  { name, curves, target, readings, now }: Pick<LoadPage, 'name' | 'curves' | 'target' | 'readings' | 'now'>,
  when: (at: string) => string,
): SceneStory {
  const points = curves.flatMap((one) => one.points.map((point) => ({ ...point, probe: one.probe })));
  const times = points.map(({ at }) => Date.parse(at));
  const highest = Math.round(Math.max(0, ...curves.map(({ highestF }) => highestF ?? 0)) * 10) / 10;
  // With a Trichinella host in it, the lower figure of the table does not suffice.
  const need = Math.max(target.atOnceF, target.hostF ?? 0);
  const needs = [need, ...target.cooling.stages.flatMap(({ fromF, toF }) => [fromF, toF])];
  const top = Math.max(highest, ...needs) + 10;

  const gaps = [now?.cook, now?.cooling].flatMap(
    (judged) => judged?.missing.filter(({ code }) => code === GAP) ?? [],
  );

  function scene(colors: ChartColors, width: number): Scene {
    const [from, to] = [Math.min(...times), Math.max(...times)];
    const x = (at: string): number =>
      LEFT + ((Date.parse(at) - from) / Math.max(1, to - from)) * (width - LEFT - EDGE);
    const y = (f: number): number =>
      HEIGHT - EDGE - ((f - LOWEST_F) / (top - LOWEST_F)) * (HEIGHT - 2 * EDGE);
    const lines = [...new Set(needs)].flatMap((f): Shape[] => [
      { kind: 'path', d: line(LEFT, y(f), width, y(f)), stroke: colors.muted, dash: [5, 4] },
      { kind: 'text', x: LEFT - 6, y: y(f) + 4, text: text.degrees({ f }), size: TYPE, fill: colors.muted, anchor: 'end' },
    ]); // prettier-ignore
    const paths = curves.map(({ points: of }): Shape => ({
      kind: 'path',
      // Nothing is drawn where nothing was read.
      d: of
        .map(({ at, f }, i) => {
          const before = of[i - 1];
          const pen = before && !gaps.some((gap) => spans(gap, before.at, at)) ? 'L' : 'M';
          return `${pen}${x(at).toFixed(1)} ${y(f).toFixed(1)}`;
        })
        .join(''),
      stroke: colors.spruce,
      strokeWidth: 2.5,
    }));
    const ends = [from, to].map((at, i): Shape => ({
      kind: 'text', x: i === 0 ? LEFT : width, y: HEIGHT - 4, text: when(new Date(at).toISOString()), size: TYPE, fill: colors.muted,
      anchor: i === 0 ? 'start' : 'end',
    })); // prettier-ignore
    return { width, height: HEIGHT, marks: [{ shapes: [...lines, ...paths, ...ends] }] };
  }
  const rows = points.map(({ probe, at, f }) => [probe, when(at), text.degrees({ f })]);
  return {
    title: text.curve,
    finding: text.curveFinding({ n: points.length, f: highest, need }),
    n: text.readings({ n: readings }),
    notes: [],
    sources: [{ said: '', published: target.source.source }],
    table: { head: [text.probe, text.time, text.inside], rows, plain: points.map(({ probe, at, f }) => [probe, at, f]) },
    fileName: `load-${name}`,
    scene: points.length > 1 ? scene : null,
  }; // prettier-ignore
}

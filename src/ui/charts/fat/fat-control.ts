import type { FatReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { percentAxis } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { drawLimitLines } from '../drawing/limit-lines.ts';
import { NO_GAP, type ChartStory } from '../story.ts';

/** More marks in one picture are indistinguishable. */
const MAX_DRAWN = 40;
/** Number of batches that a sentence can name. */
const MAX_NAMED = 4;

/** A fat test compared with its target. */
interface Miss {
  id: number;
  name: string;
  target: number;
  tested: number;
  /** Test minus target, as a fraction. */
  off: number;
}

/** Fat tests relative to their targets, with control limits. */
export function controlStory(view: FatReport, format: Format): ChartStory {
  const misses = missesOf(view.batches);
  const drawn = misses.slice(-MAX_DRAWN);
  const points = (share: number) => format.number(share * 100, 1);
  return {
    title: text.controlTitle,
    finding: controlFinding(view, points),
    n: text.nTests({ n: view.counts.testedWithTarget }),
    notes: [
      text.controlKey,
      ...(drawn.length < view.counts.testedWithTarget
        ? [text.controlDrawn({ drawn: drawn.length, of: view.counts.testedWithTarget })]
        : []),
    ],
    sources: [{ said: text.limitsSource, published: '' }],
    table: {
      head: [text.batch, text.target, text.tested, text.off],
      rows: misses.map(({ name, target, tested, off }) => [
        name,
        format.share(target),
        format.share(tested),
        points(off),
      ]),
      links: misses.map(({ id }) => `/grinder/${id}`),
      plain: misses.map(({ name, target, tested, off }) => [name, target, tested, off]),
    },
    fileName: `fat-tests-${view.season}`,
    height: 320,
    draw: view.control ? (colors) => drawControl(view, drawn, colors, points) : null,
    linkOf: (_, index) => (drawn[index] ? `/grinder/${drawn[index].id}` : null),
  };
}

function controlFinding({ control, counts }: FatReport, points: (share: number) => string): string {
  if (!control) return text.noControl({ n: counts.testedWithTarget });
  const names = control.outside.map(({ name }) => name);
  const named = names.slice(-MAX_NAMED).join(', ');
  return [
    Math.abs(control.centre) < NO_GAP
      ? text.controlMatch
      : text.controlMean({ points: points(Math.abs(control.centre)), leaner: control.centre < 0 }),
    names.length === 0
      ? text.noneOutside
      : text.outside({
          names:
            names.length > MAX_NAMED ? text.andMore({ names: named, more: names.length - MAX_NAMED }) : named,
          n: names.length,
        }),
  ].join(' ');
}

function missesOf(batches: FatReport['batches']): Miss[] {
  return batches.flatMap(({ id, name, target, tested }) =>
    target === null || tested === null ? [] : [{ id, name, target, tested, off: tested - target }],
  );
}

function drawControl(
  view: FatReport,
  misses: readonly Miss[],
  colors: ChartColors,
  points: (share: number) => string,
) {
  const { centre, lower, upper, outside } = view.control ?? { centre: 0, lower: 0, upper: 0, outside: [] };
  return drawLimitLines(
    {
      label: text.off,
      names: misses.map(({ name }) => name),
      values: misses.map(({ off }) => off),
      out: (at) => outside.some(({ id }) => id === misses[at]?.id),
      lines: [
        { value: upper, label: text.upperLimit({ points: points(upper) }) },
        { value: centre, label: text.centre({ points: points(centre) }) },
        { value: lower, label: text.lowerLimit({ points: points(lower) }) },
      ],
    },
    colors,
    {
      ...percentAxis(colors, text.offAxis, ''),
      suggestedMin: Math.min(lower, 0),
      suggestedMax: Math.max(upper, 0),
    },
  );
}

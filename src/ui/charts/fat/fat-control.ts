import type { FatReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE, nameAxis, percentAxis } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { NO_GAP, type ChartStory } from '../story.ts';

/** More marks in one picture are indistinguishable. */
const MAX_DRAWN = 40;
/** Number of batches that a sentence can name. */
const MAX_NAMED = 4;
/** Room on the right for the labels of the limits, px. */
const LABEL_ROOM = 112;

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
    sources: [text.limitsSource],
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
  const font = { size: FONT_SIZE, family: colors.font };
  const out = (at: number) => outside.some(({ id }) => id === misses[at]?.id);
  const limit = (value: number, label: string) => ({
    type: 'line' as const,
    yMin: value,
    borderColor: colors.muted,
    borderDash: [6, 5],
    borderWidth: 1.5,
    // Beside the plot: on it the label would cover the newest mark.
    label: { content: label, color: colors.muted, font },
  });
  const names = misses.map(({ name }) => name);
  return {
    type: 'line' as const,
    data: {
      labels: names,
      datasets: [
        {
          type: 'line' as const,
          label: text.off,
          data: misses.map(({ off }) => off),
          borderColor: colors.steel,
          borderWidth: 1.5,
          pointStyle: misses.map((_, at) => (out(at) ? 'rectRot' : 'circle')),
          pointRadius: misses.map((_, at) => (out(at) ? 10 : 6)),
          pointHoverRadius: 10,
          pointBackgroundColor: misses.map((_, at) => (out(at) ? colors.ink : colors.spruce)),
          pointBorderColor: colors.card,
        },
      ],
    },
    options: {
      layout: { padding: { right: LABEL_ROOM } },
      scales: {
        x: { ...nameAxis(colors, names), ticks: { color: colors.ink, font } },
        y: {
          ...percentAxis(colors, text.offAxis, ''),
          suggestedMin: Math.min(lower, 0),
          suggestedMax: Math.max(upper, 0),
          grace: '10%',
        },
      },
      plugins: {
        annotation: {
          annotations: [
            limit(upper, text.upperLimit({ points: points(upper) })),
            limit(centre, text.centre({ points: points(centre) })),
            limit(lower, text.lowerLimit({ points: points(lower) })),
          ],
        },
      },
    },
  };
}

import type { FatReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { limitLines } from '../engine/limit-lines.ts';
import type { AxisPlot } from '../plot.ts';
import { type ChartStory, NO_GAP } from '../story.ts';
import { column, tableOf } from '../table.ts';

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
    table: tableOf(
      misses,
      [
        column(text.batch, ({ name }) => name),
        column(text.target, ({ target }) => format.share(target), ({ target }) => target),
        column(text.tested, ({ tested }) => format.share(tested), ({ tested }) => tested),
        column(text.off, ({ off }) => points(off), ({ off }) => off),
      ],
      ({ id }) => `/grinder/${id}`,
    ),
    fileName: `fat-tests-${view.season}`,
    plots: view.control ? [drawControl(view.control, drawn, points)] : [],
  }; // prettier-ignore
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
  { centre, lower, upper, outside }: NonNullable<FatReport['control']>,
  misses: readonly Miss[],
  points: (share: number) => string,
): AxisPlot {
  return limitLines(
    misses.map(({ id, name, off }) => ({
      name,
      value: off,
      out: outside.some((one) => one.id === id),
      words: points(off),
      link: `/grinder/${id}`,
    })),
    [
      { value: upper, label: text.upperLimit({ points: points(upper) }) },
      { value: centre, label: text.centre({ points: points(centre) }) },
      { value: lower, label: text.lowerLimit({ points: points(lower) }) },
    ],
    { written: points, title: text.offAxis },
  );
}

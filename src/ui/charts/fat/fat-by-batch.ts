import type { FatCounts, FatReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { drawFat } from './fat-drawing.ts';
import { type ChartStory, NO_GAP } from '../story.ts';
import { column, tableOf } from '../table.ts';

/** More marks in one picture are indistinguishable. */
const MAX_DRAWN = 40;

/** Fat of each batch: ordered, planned, weighed in, tested. */
export function fatStory(view: FatReport, format: Format): ChartStory {
  const { batches, counts } = view;
  const informative = batches.filter(({ target, tested }) => target !== null || tested !== null);
  const drawn = informative.slice(-MAX_DRAWN);
  const share = (value: number | null) => (value === null ? '' : format.share(value));
  return {
    title: text.title,
    finding: fatFinding(counts, format),
    n: text.nBatches({ batches: counts.batches, tests: counts.tested }),
    notes: [
      text.key,
      ...(drawn.length < counts.batches ? [text.drawn({ drawn: drawn.length, of: counts.batches })] : []),
      ...(batches.length < counts.batches
        ? [text.listed({ listed: batches.length, of: counts.batches })]
        : []),
    ],
    sources: [],
    table: tableOf(
      batches,
      [
        column(text.batch, ({ name }) => name),
        column(text.day, ({ on }) => format.day(on), ({ on }) => on),
        column(text.species, ({ species }) => species.join(', ')),
        column(text.target, ({ target }) => share(target), ({ target }) => target),
        column(text.planned, ({ planned }) => share(planned), ({ planned }) => planned),
        column(text.weighedIn, ({ weighedIn }) => share(weighedIn), ({ weighedIn }) => weighedIn),
        column(text.tested, ({ tested }) => share(tested), ({ tested }) => tested),
      ],
      ({ id }) => `/grinder/${id}`,
    ),
    fileName: `fat-${view.season}`,
    plots: drawn.length === 0 ? [] : [drawFat(drawn, format)],
  }; // prettier-ignore
}

/** Number of batches on target, and the bias of the tests. */
function fatFinding({ batches, withTarget, onTarget, gap }: FatCounts, format: Format): string {
  if (batches === 0) return text.noFat;
  return [
    withTarget === 0 ? text.noTargets({ n: batches }) : text.onTarget({ met: onTarget, of: withTarget }),
    gap === null
      ? text.noTests
      : Math.abs(gap.mean) < NO_GAP
        ? text.testMatch({ n: gap.n })
        : text.testGap({
            n: gap.n,
            points: format.number(Math.abs(gap.mean) * 100, 1),
            leaner: gap.mean < 0,
          }),
  ].join(' ');
}

import type { FatCounts, FatReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { drawFat } from './fat-drawing.ts';
import { NO_GAP, type ChartStory } from '../story.ts';

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
    table: {
      head: [text.batch, text.day, text.species, text.target, text.planned, text.weighedIn, text.tested],
      rows: batches.map((batch) => [
        batch.name,
        format.day(batch.on),
        batch.species.join(', '),
        share(batch.target),
        share(batch.planned),
        share(batch.weighedIn),
        share(batch.tested),
      ]),
      links: batches.map((batch) => `/grinder/${batch.id}`),
      plain: batches.map((batch) => [
        batch.name,
        batch.on,
        batch.species.join(', '),
        batch.target,
        batch.planned,
        batch.weighedIn,
        batch.tested,
      ]),
    },
    fileName: `fat-${view.season}`,
    height: 420,
    draw: drawn.length === 0 ? null : (colors) => drawFat(drawn, colors),
    linkOf: (_, index) => (drawn[index] ? `/grinder/${drawn[index].id}` : null),
  };
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

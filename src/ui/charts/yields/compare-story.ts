import type { ComparisonReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/compare.ts';
import type { Format } from '../../texts/format.ts';
import { drawDifference, drawGroups } from './compare-drawing.ts';
import { compareFinding, type GroupNames, measureWriter } from './compare-words.ts';
import type { ChartStory } from '../story.ts';

/** Two groups of animals by one measure, and the difference of their means with its confidence interval. */
export function compareStory(
  view: ComparisonReport,
  names: GroupNames,
  format: Format,
  linkOf: (side: 'a' | 'b') => string,
): ChartStory {
  const { value, gap } = measureWriter(view.by, format);
  const sides = ['a', 'b'] as const;
  const shown = sides.some((side) => view[side].mean !== null);
  const { difference } = view;
  return {
    title: text.measures[view.by],
    finding: compareFinding(view, names, format),
    n: text.n({ a: view.a.n, b: view.b.n }),
    notes: [text.key],
    sources: difference ? [{ said: text.source, published: '' }] : [],
    table: {
      head: [text.group, text.animals, text.mean, text.deviation],
      rows: [
        ...sides.map((side) => {
          const { n, mean, sd } = view[side];
          return [names[side], String(n), mean === null ? '' : value(mean), sd === null ? '' : gap(sd)];
        }),
        ...(difference
          ? [[text.difference, '', gap(difference.mean), `${gap(difference.low)} – ${gap(difference.high)}`]]
          : []),
      ],
      links: sides.map(linkOf),
      plainHead: [text.group, text.animals, text.mean, text.deviation, 'low', 'high'],
      plain: [
        ...sides.map((side) => [names[side], view[side].n, view[side].mean, view[side].sd, null, null]),
        ...(difference
          ? [[text.difference, null, difference.mean, null, difference.low, difference.high]]
          : []),
      ],
    },
    fileName: `compare-${view.by}`,
    plots: shown ? [drawGroups(view, names, format, linkOf), ...drawDifference(view, names, format)] : [],
  };
}

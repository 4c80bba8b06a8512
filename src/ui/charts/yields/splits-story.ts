import type { SeasonFilter } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { FEW, type SceneStory } from '../story.ts';
import type { SplitGroup, SplitRow } from './split-rows.ts';
import { drawSplits, type SplitSizes, WIDE } from './splits-drawing.ts';

/** Take-home of groups of animals as boxes below each other. */
export function splitsStory(
  groups: readonly SplitGroup[],
  format: Format,
  linkOf: (filter: SeasonFilter) => string,
  { title, n, fileName }: Pick<SceneStory, 'title' | 'n' | 'fileName'>,
  sizes: SplitSizes = WIDE,
): SceneStory {
  const rows = groups.flatMap((group) => group.rows.map((row) => ({ of: group.title, ...row })));
  return {
    title,
    finding: splitFinding(groups, format),
    n,
    notes: [text.splitKey({ few: FEW })],
    sources: [],
    table: {
      head: [
        text.group,
        text.of,
        text.animals,
        text.lowest,
        text.lowerQuarter,
        text.middle,
        text.upperQuarter,
        text.highest,
      ],
      rows: rows.map(({ of, label, spread: { n, low, q1, median, q3, high } }) => [
        ...[label, of, String(n)],
        ...[low, q1, median, q3, high].map((share) => format.share(share)),
      ]),
      links: rows.map(({ filter }) => linkOf(filter)),
      plain: rows.map(({ of, label, spread: { n, low, q1, median, q3, high } }) => [label, of, n, low, q1, median, q3, high]), // prettier-ignore
    },
    fileName,
    scene:
      rows.length === 0 ? null : (colors, width) => drawSplits(groups, format, linkOf, colors, width, sizes),
  };
}

/** The largest difference between two groups of one split that have enough animals. */
export function splitFinding(groups: readonly SplitGroup[], format: Format): string {
  const gaps = groups.flatMap(({ title, rows }) => {
    const enough = rows
      .filter(({ spread }) => spread.n >= FEW)
      .toSorted((a, b) => b.spread.median - a.spread.median);
    const [most, least] = [enough[0], enough.at(-1)];
    return most && least && most !== least ? [{ title, most, least }] : [];
  });
  const [widest] = gaps.toSorted((a, b) => gapOf(b) - gapOf(a));
  if (!widest) return text.splitNone;
  const { title, most, least } = widest;
  const share = ({ spread }: SplitRow): string => format.share(spread.median);
  const n = text.and({ a: most.spread.n, b: least.spread.n });
  return `${text.splitWidest({ group: title, most: most.label, mostShare: share(most), least: least.label, leastShare: share(least), n })} ${text.splitAsk}`;
}

function gapOf({ most, least }: { most: SplitRow; least: SplitRow }): number {
  return most.spread.median - least.spread.median;
}

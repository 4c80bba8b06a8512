import type { SeasonFilter } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { type ChartStory, FEW } from '../story.ts';
import { column, tableOf } from '../table.ts';
import type { SplitGroup, SplitRow } from './split-rows.ts';
import { drawSplits, type SplitSizes, WIDE } from './splits-drawing.ts';

/** Take-home of groups of animals as boxes below each other. */
export function splitsStory(
  groups: readonly SplitGroup[],
  format: Format,
  linkOf: (filter: SeasonFilter) => string,
  { title, n, fileName }: Pick<ChartStory, 'title' | 'n' | 'fileName'>,
  sizes: SplitSizes = WIDE,
): ChartStory {
  const rows = groups.flatMap((group) => group.rows.map((row) => ({ of: group.title, ...row })));
  return {
    title,
    finding: splitFinding(groups, format),
    n,
    notes: [text.splitKey({ few: FEW })],
    sources: [],
    table: tableOf(
      rows,
      [
        column(text.group, ({ label }) => label),
        column(text.of, ({ of }) => of),
        column(text.animals, ({ spread }) => String(spread.n), ({ spread }) => spread.n),
        column(text.lowest, ({ spread }) => format.share(spread.low), ({ spread }) => spread.low),
        column(text.lowerQuarter, ({ spread }) => format.share(spread.q1), ({ spread }) => spread.q1),
        column(text.middle, ({ spread }) => format.share(spread.median), ({ spread }) => spread.median),
        column(text.upperQuarter, ({ spread }) => format.share(spread.q3), ({ spread }) => spread.q3),
        column(text.highest, ({ spread }) => format.share(spread.high), ({ spread }) => spread.high),
      ],
      ({ filter }) => linkOf(filter),
    ),
    fileName,
    plots: rows.length === 0 ? [] : [drawSplits(groups, format, linkOf, sizes)],
  }; // prettier-ignore
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

import type { PoundsReport, SpeciesYield, YieldsReport } from '../../bridge/contract.ts';
import { weighedOf } from '../charts/pounds/fates.ts';
import type { ChartStory, Cited } from '../charts/story.ts';
import { text } from '../../words/compiled/window/season/report.ts';
import type { Format } from '../texts/format.ts';

/** The figures of the cover with their labels. */
export function coverFigures(
  yields: YieldsReport,
  pounds: PoundsReport,
  format: Format,
): { figure: string; what: string }[] {
  const explained = pounds.baseGrams > 0 ? 1 - pounds.unexplainedGrams / weighedOf(pounds) : null;
  return [
    { figure: String(yields.animals), what: text.animals },
    { figure: format.mass(yields.takeHomeGrams, 0), what: text.takeHome },
    { figure: String(yields.species.length), what: text.kinds },
    ...(explained === null ? [] : [{ figure: format.share(explained), what: text.explained }]),
  ];
}

/** One row of the cover's table: a species this season, as published, and the season before. */
export function coverRow(
  { name, spread, published, seasons }: SpeciesYield,
  season: number,
  format: Format,
): { name: string; n: string; middle: string; half: string; published: string; before: string } {
  const before = seasons.filter((one) => one.season < season).at(-1);
  return {
    name,
    n: String(spread?.n ?? 0),
    middle: spread ? format.share(spread.median) : text.none,
    half: spread && spread.n > 1 ? format.shareRange(spread.q1, spread.q3, 1) : text.none,
    published: published ? format.shareRange(published.low, published.high) : text.none,
    before: before ? format.share(before.median) : text.none,
  };
}

/** Each source and note once, in the order of the pages. */
export function lastPage(stories: readonly ChartStory[]): {
  sources: Cited[];
  notes: { title: string; note: string }[];
} {
  const notes = stories.flatMap(({ title, n, notes: own }) => [{ title, note: [`${n}.`, ...own].join(' ') }]);
  const cited = stories.flatMap(({ sources }) => sources);
  const once = new Map(cited.map((one) => [one.said + one.published, one]));
  return { sources: [...once.values()], notes };
}

import type { SpeciesYield, YieldsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/yields.ts';
import type { Format } from '../../texts/format.ts';
import { type ChartStory, FEW, NO_GAP } from '../story.ts';
import { column, tableOf } from '../table.ts';
import { drawTrend, trendWidth } from './trend-drawing.ts';
import { publishedNotes, publishedSources } from './yield-by-species.ts';

/** Take-home of each species by season. `linkOf` links to the animals of a species in a season. */
export function trendStory(
  view: YieldsReport,
  format: Format,
  linkOf: (species: string, season: number) => string,
): ChartStory {
  const shown = view.species
    .filter(({ seasons }) => seasons.length > 0)
    .toSorted((a, b) => countOf(b) - countOf(a));
  const rows = shown.flatMap((species) => species.seasons.map((one) => ({ species, one })));
  const seasons = new Set(rows.map(({ one }) => one.season)).size;
  return {
    title: text.trendTitle,
    finding: trendFinding(shown, view.season, format),
    n: text.trendN({ n: rows.reduce((total, { one }) => total + one.n, 0), seasons }),
    notes: [text.trendKey({ few: FEW }), ...publishedNotes(shown)],
    sources: publishedSources(shown),
    table: tableOf(
      rows,
      [
        column(text.species, ({ species }) => species.name),
        column(text.season, ({ one }) => String(one.season), ({ one }) => one.season),
        column(text.animals, ({ one }) => String(one.n), ({ one }) => one.n),
        column(text.lowerQuarter, ({ one }) => format.share(one.q1), ({ one }) => one.q1),
        column(text.middle, ({ one }) => format.share(one.median), ({ one }) => one.median),
        column(text.upperQuarter, ({ one }) => format.share(one.q3), ({ one }) => one.q3),
      ],
      ({ species, one }) => linkOf(species.code, one.season),
    ),
    fileName: `seasons-${view.season}`,
    plots: seasons < 2 ? [] : shown.map((species) =>
      drawTrend(species, { season: view.season, named: shown.length > 1 }, format, linkOf),
    ),
    // A single species is already named around the picture, and fills it.
    ...(shown.length > 1 ? { least: trendWidth(shown) } : {}),
  }; // prettier-ignore
}

const countOf = ({ seasons }: SpeciesYield): number => seasons.reduce((total, { n }) => total + n, 0);

/** The two most frequent species that can be compared with an earlier season. */
function trendFinding(shown: readonly SpeciesYield[], season: number, format: Format): string {
  if (new Set(shown.flatMap(({ seasons }) => seasons.map((one) => one.season))).size < 2)
    return text.trendOne;
  const changes = shown.slice(0, 2).flatMap(({ name, seasons }) => {
    const now = seasons.find((one) => one.season === season);
    const before = seasons.filter((one) => one.season < season).at(-1);
    if (!now || !before) return [];
    if (now.n < FEW || before.n < FEW) return [text.trendFew({ species: name })];
    const points = (now.median - before.median) * 100;
    const facts = { species: name, share: format.share(now.median), season: String(before.season) };
    if (Math.abs(points) < NO_GAP * 100) return [text.trendSame(facts)];
    return [text.trendUp({ ...facts, points: format.number(Math.abs(points), 1), more: points > 0 })];
  });
  return changes.length > 0 ? changes.join(' ') : text.trendNone;
}

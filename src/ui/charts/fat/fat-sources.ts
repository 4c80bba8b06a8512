import type { FatReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { drawBars } from '../drawing/scene-bars.ts';
import type { SceneStory } from '../story.ts';

/** Sources of the fat in a season's grinds, by weight. */
export function fatSourcesStory({ season, sources, counts }: FatReport, format: Format): SceneStory {
  const all = sources.reduce((total, { grams }) => total + grams, 0);
  const named = sources.map((one) => ({ ...one, name: one.source === 'own' ? text.own : one.name }));
  return {
    title: text.sourcesTitle,
    finding: finding(named, all, format),
    n: text.nFat({ mass: format.mass(all, 0), batches: counts.batches }),
    notes: [text.sourcesKey],
    sources: [],
    table: {
      head: [text.source, text.weight, text.partOfAll, text.batches, text.cost],
      rows: named.map(({ name, grams, batches, costMinor }) => [
        name,
        format.mass(grams, 0),
        format.share(grams / all, 0),
        String(batches),
        costMinor === null ? '' : format.money(costMinor),
      ]),
      plainHead: [text.source, `${text.weight}, g`, text.partOfAll, text.batches, text.costMinor],
      plain: named.map(({ name, grams, batches, costMinor }) => [
        name,
        grams,
        grams / all,
        batches,
        costMinor,
      ]),
    },
    fileName: `fat-sources-${season}`,
    scene:
      named.length === 0
        ? null
        : (colors, width) =>
            drawBars(
              named.map(({ source, name, grams, batches }) => ({
                name,
                note: text.inBatches({ batches }),
                value: grams,
                words: `${format.mass(grams, 0)} (${format.share(grams / all, 0)})`,
                fill:
                  source === 'own'
                    ? { fill: colors.card, pattern: { kind: 'hatch', ink: colors.ink } }
                    : { fill: colors.fat },
              })),
              colors,
              width,
            ),
  };
}

function finding(named: FatReport['sources'], all: number, format: Format): string {
  const [main, another] = named;
  if (!main) return text.noSources;
  const mass = format.mass(main.grams, 0);
  const priced = named.filter(({ costMinor }) => costMinor !== null);
  const cost = priced.reduce((total, { costMinor }) => total + (costMinor ?? 0), 0);
  const only = main.source === 'own' ? text.onlyOwn({ mass }) : text.onlySource({ name: main.name, mass });
  return [
    another ? text.mainSource({ name: main.name, share: format.share(main.grams / all, 0), mass }) : only,
    ...(priced.length > 0 ? [text.spent({ money: format.money(cost) })] : []),
  ].join(' '); // prettier-ignore
}

import type { FatReport } from '../../../bridge/contract.ts';
import { fromGrams } from '../../../core/values/units.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/fat.ts';
import type { Format } from '../../texts/format.ts';
import { massAxis } from '../engine/axes.ts';
import { barRows, type BarRow } from '../engine/bar-rows.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';

/** The fill of the animals’ own fat. */
export const OWN = { pattern: 'hatch', ink: 'ink', on: 'card' } as const;

/** Sources of the fat in a season's grinds, by weight. */
export function fatSourcesStory({ season, sources, counts }: FatReport, format: Format): ChartStory {
  const all = sources.reduce((total, { grams }) => total + grams, 0);
  const named = sources.map((one) => ({ ...one, name: one.source === 'own' ? text.own : one.name }));
  const drawn = named.map(({ source, name, grams, batches }): BarRow => {
    const words = `${format.mass(grams, 0)} (${format.share(grams / all, 0)})`;
    const paint = source === 'own' ? OWN : ('fat' as const);
    return { name: [name, text.inBatches({ batches })], lines: [{ pieces: [{ amount: fromGrams(grams, format.unit), paint }], words }], label: common.named({ name, text: words }), link: '' };
  }); // prettier-ignore
  return {
    title: text.sourcesTitle,
    finding: finding(named, all, format),
    n: text.nFat({ mass: format.mass(all, 0), batches: counts.batches }),
    notes: [text.sourcesKey],
    sources: [],
    table: tableOf(named, [
      column(text.source, ({ name }) => name),
      column(text.weight, ({ grams }) => format.mass(grams, 0), ({ grams }) => grams, `${text.weight}, g`),
      column(text.partOfAll, ({ grams }) => format.share(grams / all, 0), ({ grams }) => grams / all),
      column(text.batches, ({ batches }) => String(batches), ({ batches }) => batches),
      column(text.cost, ({ costMinor }) => (costMinor === null ? '' : format.money(costMinor)), ({ costMinor }) => costMinor, text.costMinor),
    ]),
    fileName: `fat-sources-${season}`,
    plots: drawn.length === 0 ? [] : [barRows(drawn, massAxis(format))],
  }; // prettier-ignore
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

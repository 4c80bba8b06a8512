import type { CheckReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { biasWords, type Cover } from './cover.ts';
import { drawCoverage } from './coverage-drawing.ts';
import { type ChartStory, FEW } from '../story.ts';
import { column, ranged, tableOf } from '../table.ts';

/** Share of correct quotes by species, beside the share expected for valid ranges. */
export function coverageStory(
  { season, species, all }: CheckReport,
  format: Format,
  linkOf: (species: string) => string,
): ChartStory {
  const each = species.map((one) => ({ ...one, link: linkOf(one.code) }));
  const rows: Cover[] = [
    ...(each.length > 1 ? [{ ...all, name: text.allSpecies, link: null }] : []),
    ...each,
  ];
  return {
    title: text.coverTitle,
    finding: finding(each),
    n: text.nQuotes({ n: all.n }),
    notes: [text.coverKey, ...(each.some(({ n }) => n < FEW) ? [text.coverSmall({ n: FEW })] : [])],
    sources: [],
    table: tableOf(
      rows,
      [
        column(text.species, ({ name }) => name),
        ranged(text.held, ({ held, n }) => text.nOfN({ held, n }), [['n', ({ n }) => n], [text.held, ({ held }) => held]]),
        ranged(text.honest, ({ honest }) => `${honest.low}–${honest.high}`, [
          [`${text.honest}, low`, ({ honest }) => honest.low],
          [`${text.honest}, high`, ({ honest }) => honest.high],
        ]),
        column(text.bias, (row) => biasWords(row, format), ({ bias }) => bias),
      ],
      ({ link }) => link ?? '',
    ),
    fileName: `quotes-held-${season}`,
    plots: all.n === 0 ? [] : [drawCoverage(rows, format)],
  }; // prettier-ignore
}

function finding(each: readonly Cover[]): string {
  if (each.length === 0) return text.noQuotes;
  const names = (of: readonly Cover[]) => of.map(({ name }) => name).join(', ');
  const few = each.filter((one) => one.held < one.honest.low);
  const many = each.filter((one) => one.held > one.honest.high);
  if (few.length + many.length === 0) return text.coverAllHonest;
  return [
    ...(few.length > 0 ? [text.coverFew({ names: names(few), n: few.length })] : []),
    ...(many.length > 0 ? [text.coverMany({ names: names(many), n: many.length })] : []),
  ].join(' ');
}

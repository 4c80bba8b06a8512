import type { CheckReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';
import { biasWords, type Cover } from './cover.ts';
import { drawCoverage } from './coverage-drawing.ts';
import { FEW, type SceneStory } from '../story.ts';

/** Share of correct quotes by species, beside the share expected for valid ranges. */
export function coverageStory(
  { season, species, all }: CheckReport,
  format: Format,
  linkOf: (species: string) => string,
): SceneStory {
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
    table: {
      head: [text.species, text.held, text.honest, text.bias],
      rows: rows.map((row) => [
        row.name,
        text.nOfN({ held: row.held, n: row.n }),
        `${row.honest.low}–${row.honest.high}`,
        biasWords(row, format),
      ]),
      links: rows.map(({ link }) => link ?? ''),
      plainHead: [text.species, 'n', text.held, `${text.honest}, low`, `${text.honest}, high`, text.bias],
      plain: rows.map(({ name, n, held, honest, bias }) => [name, n, held, honest.low, honest.high, bias]),
    },
    fileName: `quotes-held-${season}`,
    scene: all.n === 0 ? null : (colors, width) => drawCoverage(rows, format, colors, width),
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

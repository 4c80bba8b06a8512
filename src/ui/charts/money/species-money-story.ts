import type { CostingView, SpeciesMargin } from '../../../bridge/contract.ts';
import { leftShare, speciesFinding } from './costs-words.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { FEW, type SceneStory } from '../story.ts';
import { drawPairs, type PairRow } from '../drawing/pair-bars.ts';

/** Billed amount and cost by species; `only` limits it to one, named `onlyName`. `linkOf` links to its animals. */
export function speciesMoneyStory(
  view: CostingView,
  format: Format,
  linkOf: (species: string) => string,
  only?: { code: string; name: string },
): SceneStory {
  const rows = view.species.filter(({ code }) => only === undefined || code === only.code);
  const share = (row: SpeciesMargin): string => {
    const left = leftShare(row);
    return left === null ? '' : format.share(left, 0);
  };
  return {
    title: text.speciesTitle,
    finding:
      only && rows.length === 0
        ? text.speciesNone({ species: only.name })
        : speciesMoneyFinding(rows, format),
    n: text.n({ n: rows.reduce((total, { animals }) => total + animals, 0) }),
    notes: [text.barKey],
    sources: [],
    table: {
      head: [text.species, text.animals, text.billed, text.cost, text.left, text.share],
      rows: rows.map((row) => [
        ...[row.name, String(row.animals), format.money(row.incomeMinor), format.money(row.cost)],
        ...[format.money(row.incomeMinor - row.cost), share(row)],
      ]),
      links: rows.map(({ code }) => linkOf(code)),
      plain: rows.map((row) => [
        ...[row.name, row.animals, row.incomeMinor, row.cost, row.incomeMinor - row.cost, leftShare(row)],
      ]),
    },
    fileName: `billed-by-species-${view.season}`,
    scene:
      rows.length === 0
        ? null
        : (colors, width) =>
            drawPairs(
              rows.map((row) => pairOf(row, format, linkOf)),
              colors,
              width,
            ),
  };
}

/** The species with the highest and lowest margin, among those with enough animals; the others are named. */
function speciesMoneyFinding(rows: readonly SpeciesMargin[], format: Format): string {
  const shown = rows.filter(({ animals }) => animals >= FEW);
  const few = rows.filter(({ animals }) => animals < FEW);
  const sentence = speciesFinding(shown.length > 0 ? shown : rows, format);
  return few.length > 0
    ? `${sentence} ${text.speciesFew({ names: few.map(({ name }) => name).join(', ') })}`.trim()
    : sentence;
}

function pairOf(row: SpeciesMargin, format: Format, linkOf: (species: string) => string): PairRow {
  const left = row.incomeMinor - row.cost;
  const share = leftShare(row);
  const outcome =
    left < 0 ? text.lost({ amount: format.money(-left) }) : text.kept({ amount: format.money(left) });
  const leftText = share === null || left < 0 ? outcome : `${outcome}, ${format.share(share, 0)}`;
  return {
    name: text.speciesRow({ name: row.name, n: row.animals }),
    billed: row.incomeMinor,
    cost: row.cost,
    billedText: format.money(row.incomeMinor),
    costText: format.money(row.cost),
    leftText,
    short: left < 0,
    link: linkOf(row.code),
    label: `${row.name}: ${text.billed} ${format.money(row.incomeMinor)}, ${text.cost} ${format.money(row.cost)}, ${leftText}`,
  };
}

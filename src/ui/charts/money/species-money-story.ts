import type { CostingView, SpeciesMargin } from '../../../bridge/contract.ts';
import { leftShare, speciesFinding } from './costs-words.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { barRows, type BarRow } from '../engine/bar-rows.ts';
import { costBar, moneyAxis, outcomeOf } from './billed-and-cost.ts';
import { FEW, type ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';

/** Billed amount and cost by species; `only` limits it to one, named `onlyName`. `linkOf` links to its animals. */
export function speciesMoneyStory(
  view: CostingView,
  format: Format,
  linkOf: (species: string) => string,
  only?: { code: string; name: string },
): ChartStory {
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
    table: tableOf(
      rows,
      [
        column(text.species, ({ name }) => name),
        column(text.animals, ({ animals }) => String(animals), ({ animals }) => animals),
        column(text.billed, ({ incomeMinor }) => format.money(incomeMinor), ({ incomeMinor }) => incomeMinor),
        column(text.cost, ({ cost }) => format.money(cost), ({ cost }) => cost),
        column(text.left, (row) => format.money(leftOf(row)), leftOf),
        column(text.share, share, leftShare),
      ],
      ({ code }) => linkOf(code),
    ),
    fileName: `billed-by-species-${view.season}`,
    plots: rows.length === 0 ? [] : [barRows(rows.map((row) => rowOf(row, format, linkOf(row.code))), moneyAxis(format))],
  }; // prettier-ignore
}

const leftOf = ({ incomeMinor, cost }: SpeciesMargin): number => incomeMinor - cost;

/** The species with the highest and lowest margin, among those with enough animals; the others are named. */
function speciesMoneyFinding(rows: readonly SpeciesMargin[], format: Format): string {
  const shown = rows.filter(({ animals }) => animals >= FEW);
  const few = rows.filter(({ animals }) => animals < FEW);
  const sentence = speciesFinding(shown.length > 0 ? shown : rows, format);
  return few.length > 0
    ? `${sentence} ${text.speciesFew({ names: few.map(({ name }) => name).join(', ') })}`.trim()
    : sentence;
}

function rowOf(row: SpeciesMargin, format: Format, link: string): BarRow {
  const share = leftShare(row);
  const { words, short } = outcomeOf(leftOf(row), format);
  const outcome = { short, words: share === null || short ? words : `${words}, ${format.share(share, 0)}` };
  const [billed, cost] = [format.money(row.incomeMinor), format.money(row.cost)];
  return {
    name: text.speciesRow({ name: row.name, n: row.animals }),
    lines: [
      { pieces: [{ amount: row.incomeMinor, paint: 'spruce' }], words: billed },
      { pieces: [costBar(row.cost)], words: cost },
    ],
    outcome,
    link,
    label: common.named({
      name: row.name,
      text: `${text.billed} ${billed}, ${text.cost} ${cost}, ${outcome.words}`,
    }),
  };
}

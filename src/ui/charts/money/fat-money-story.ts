import type { CostingView } from '../../../bridge/contract.ts';
import { fatFinding } from './costs-words.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { barRows, type BarRow } from '../engine/bar-rows.ts';
import { costBar, moneyAxis } from './billed-and-cost.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';

/** Cost of the bought fat that was ground, compared with the fat charges. */
export function fatMoneyStory({ season, fat }: CostingView, format: Format, link: string): ChartStory {
  const rows = [
    { name: text.fatCost, minor: fat.cost, piece: costBar(fat.cost) },
    {
      name: text.fatCharged,
      minor: fat.chargedMinor,
      piece: { amount: fat.chargedMinor, paint: 'spruce' as const },
    },
  ];
  const none = fat.cost === 0 && fat.chargedMinor === 0;
  const drawn = rows.map(({ name, minor, piece }): BarRow => {
    const words = format.money(minor);
    return { name, lines: [{ pieces: [piece], words }], label: common.named({ name, text: words }), link };
  });
  return {
    title: text.fatTitle,
    finding: fatFinding(fat, format),
    n: text.fatN({ mass: format.mass(fat.usedGrams, 0) }),
    notes: [text.fatKey],
    sources: [],
    table: tableOf(rows, [
      column(text.what, ({ name }) => name),
      column(
        text.amount,
        ({ minor }) => format.money(minor),
        ({ minor }) => minor,
      ),
    ]),
    fileName: `fat-money-${season}`,
    plots: none ? [] : [barRows(drawn, moneyAxis(format))],
  };
}

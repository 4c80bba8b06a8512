import type { CostingView, IncomeCode } from '../../../bridge/contract.ts';
import { text as common } from '../../../words/compiled/shared/common.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { barRows, type BarRow } from '../engine/bar-rows.ts';
import { costBar, moneyAxis, outcomeOf } from './billed-and-cost.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';

interface Work {
  code: IncomeCode;
  billed: number;
  /** Null for charges without work or goods of the counted kinds. */
  cost: number | null;
}

const ORDER: readonly IncomeCode[] = ['cutting', 'grinding', 'products', 'fat', 'extras', 'whole'];

/** Billed amount and cost by service. */
export function workMoneyStory(view: CostingView, format: Format, link: string): ChartStory {
  const works = worksOf(view);
  return {
    title: text.workTitle,
    finding: workFinding(works, format),
    n: text.n({ n: view.billed }),
    notes: [text.barKey],
    sources: [],
    table: tableOf(works, [
      column(text.work, ({ code }) => text.workOf[code]),
      column(text.billed, ({ billed }) => format.money(billed), ({ billed }) => billed),
      column(text.cost, ({ cost }) => (cost === null ? '' : format.money(cost)), ({ cost }) => cost),
      column(text.left, (work) => format.money(leftOf(work)), leftOf),
    ]),
    fileName: `billed-by-service-${view.season}`,
    plots: works.length === 0 ? [] : [barRows(works.map((work) => rowOf(work, format, link)), moneyAxis(format))],
  }; // prettier-ignore
}

const leftOf = ({ billed, cost }: Work): number => billed - (cost ?? 0);

function worksOf({ income, workCost }: CostingView): Work[] {
  return ORDER.map((code) => ({
    code,
    billed: income.find((group) => group.code === code)?.minor ?? 0,
    cost: code === 'extras' || code === 'whole' ? null : workCost[code],
  })).filter(({ billed, cost }) => billed !== 0 || (cost ?? 0) > 0);
}

/** The total margin, the service with the highest margin, and those at a loss. */
function workFinding(works: readonly Work[], format: Format): string {
  const billed = works.reduce((total, work) => total + work.billed, 0);
  const cost = works.reduce((total, work) => total + (work.cost ?? 0), 0);
  const sentence =
    cost > billed
      ? text.workLoss({
          billed: format.money(billed),
          cost: format.money(cost),
          loss: format.money(cost - billed),
        })
      : text.workFinding({
          billed: format.money(billed),
          cost: format.money(cost),
          left: format.money(billed - cost),
          share: format.share(billed > 0 ? (billed - cost) / billed : 0, 0),
        });
  const order = works
    .flatMap(({ code, billed: income, cost: spent }) =>
      spent === null ? [] : [{ code, left: income - spent }],
    )
    .sort((a, b) => b.left - a.left);
  const [best, worst] = [order[0], order.at(-1)];
  return [
    sentence,
    ...(best && best.left > 0
      ? [text.workMost({ work: text.workOf[best.code], amount: format.money(best.left) })]
      : []),
    ...(worst && worst.left < 0
      ? [text.workLeast({ work: text.workOf[worst.code], amount: format.money(-worst.left) })]
      : []),
  ].join(' ');
}

function rowOf(work: Work, format: Format, link: string): BarRow {
  const { code, billed, cost } = work;
  const name = text.workOf[code];
  const costText = cost === null ? text.noCost : format.money(cost);
  const outcome = outcomeOf(leftOf(work), format);
  return {
    name,
    lines: [
      { pieces: [{ amount: billed, paint: 'spruce' }], words: format.money(billed) },
      { pieces: cost === null ? [] : [costBar(cost)], words: costText },
    ],
    outcome,
    link,
    label: common.named({
      name,
      text: `${text.billed} ${format.money(billed)}, ${text.cost} ${costText}, ${outcome.words}`,
    }),
  };
}

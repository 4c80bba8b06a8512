import type { CostingView, IncomeCode } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { drawPairs, type PairRow } from '../drawing/pair-bars.ts';
import type { SceneStory } from '../story.ts';

interface Work {
  code: IncomeCode;
  billed: number;
  /** Null for charges without work or goods of the counted kinds. */
  cost: number | null;
}

const ORDER: readonly IncomeCode[] = ['cutting', 'grinding', 'products', 'fat', 'extras', 'whole'];

/** Billed amount and cost by service. */
export function workMoneyStory(view: CostingView, format: Format, link: string): SceneStory {
  const works = worksOf(view);
  return {
    title: text.workTitle,
    finding: workFinding(works, format),
    n: text.n({ n: view.billed }),
    notes: [text.barKey],
    sources: [],
    table: {
      head: [text.work, text.billed, text.cost, text.left],
      rows: works.map(({ code, billed, cost }) => [
        text.workOf[code],
        format.money(billed),
        cost === null ? '' : format.money(cost),
        format.money(billed - (cost ?? 0)),
      ]),
      plain: works.map(({ code, billed, cost }) => [text.workOf[code], billed, cost, billed - (cost ?? 0)]),
    },
    fileName: `billed-by-service-${view.season}`,
    scene:
      works.length === 0
        ? null
        : (colors, width) =>
            drawPairs(
              works.map((work) => rowOf(work, format, link)),
              colors,
              width,
            ),
  };
}

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

function rowOf({ code, billed, cost }: Work, format: Format, link: string): PairRow {
  const left = billed - (cost ?? 0);
  const name = text.workOf[code];
  const costText = cost === null ? text.noCost : format.money(cost);
  const leftText =
    left < 0 ? text.lost({ amount: format.money(-left) }) : text.kept({ amount: format.money(left) });
  return {
    name,
    billed,
    cost,
    billedText: format.money(billed),
    costText,
    leftText,
    short: left < 0,
    link,
    label: `${name}: ${text.billed} ${format.money(billed)}, ${text.cost} ${costText}, ${leftText}`,
  };
}

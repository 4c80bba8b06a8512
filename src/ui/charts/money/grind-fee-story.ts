import type { CostingView, ServiceAnswer } from '../../../bridge/contract.ts';
import { finding as costFinding, hasFat } from './costs-words.ts';
import { PARTS } from './parts-bar.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { drawFee } from './grind-fee-drawing.ts';
import type { ChartStory } from '../story.ts';
import { column, tableOf } from '../table.ts';

/** The grinding fee per finished pound, compared with its cost. Null without data on grinding. */
export function grindFeeStory(view: CostingView, format: Format, link: string): ChartStory | null {
  const answer = view.services.find(({ code }) => code === 'grinding');
  if (!answer) return null;
  const batches = answer.measured.find(({ of }) => of === 'batches')?.from ?? 0;
  const wantedShare = format.share(view.figures.wantedMargin, 0);
  const rows = feeRows(answer, wantedShare);
  return {
    title: text.feeTitle,
    finding: feeFinding(answer, format),
    n: text.feeN({ n: answer.fee?.bills ?? 0, batches }),
    notes: [text.feeKey],
    sources: [],
    table: tableOf(rows, [
      column(text.part, ([name]) => name),
      column(
        text.perUnit({ unit: format.unit }),
        ([, amount]) => (amount === null ? '' : format.money(amount)),
        ([, amount]) => amount,
      ),
    ]),
    fileName: `grind-fee-${view.season}`,
    plots: [drawFee(answer, wantedShare, format, link)],
  };
}

function feeFinding(answer: ServiceAnswer, format: Format): string {
  return `${costFinding(answer, format)} ${text.breakEvenFinding({ fee: format.money(answer.breakEven), unit: format.unit, fat: hasFat(answer) })}`;
}

function feeRows(
  { fee, parts, cost, breakEven, wanted }: ServiceAnswer,
  share: string,
): [string, number | null][] {
  const fat = hasFat({ parts, fee });
  return [
    [text.grindFee, fee?.service ?? null],
    [text.fatCharge, fee?.fat ?? null],
    ...PARTS.map((part): [string, number] => [text.parts[part], parts[part]]),
    [text.costs, cost],
    [text.breakEvenRow({ fat }), breakEven],
    [text.wantedRow({ fat, share }), wanted],
  ];
}

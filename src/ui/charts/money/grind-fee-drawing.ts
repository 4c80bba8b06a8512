import type { ServiceAnswer } from '../../../bridge/contract.ts';
import { hasFat } from './costs-words.ts';
import { type PartName, PARTS } from './parts-bar.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { FOOT } from '../engine/axes.ts';
import { uprightLayer } from '../engine/bands.ts';
import { barRows, type BarRow } from '../engine/bar-rows.ts';
import type { Paint } from '../engine/paint.ts';
import type { AxisPlot, Word } from '../plot.ts';
import { moneyAxis } from './billed-and-cost.ts';

/** Fills that are distinguishable without color. */
const PART: Readonly<Record<PartName, Paint>> = {
  wages: 'steel',
  overhead: { pattern: 'hatch', ink: 'steel', on: 'card' },
  packaging: { pattern: 'dots', ink: 'steel', on: 'card' },
  fat: 'fat',
};

interface Piece {
  name: string;
  amount: number;
  paint: Paint;
}

/** What is charged and what it costs as two bars, part by part, with the break-even fee and the wanted fee across them. */
export function drawFee(
  { fee, parts, cost, breakEven, wanted }: ServiceAnswer,
  share: string,
  format: Format,
  link: string,
): AxisPlot {
  const fat = hasFat({ parts, fee });
  const taken = fee ? fee.service + fee.fat : 0;
  const charged: Piece[] = [
    { name: text.grindFee, amount: fee?.service ?? 0, paint: 'spruce' },
    { name: text.fatCharge, amount: fee?.fat ?? 0, paint: 'fat' },
  ];
  const spent = PARTS.map((part): Piece => ({ name: text.parts[part], amount: parts[part], paint: PART[part] }));
  const row = (name: string, pieces: readonly Piece[], total: number): BarRow => ({
    name,
    lines: [{ pieces: pieces.filter(({ amount }) => amount > 0), words: format.money(total) }],
    label: `${name} ${format.money(total)}: ${pieces.map(({ name: of, amount }) => `${of} ${format.money(amount)}`).join(', ')}`,
    link,
  });
  const bars = barRows([row(text.take, charged, taken), row(text.costs, spent, cost)], moneyAxis(format));
  const most = Math.max(taken, cost, breakEven, wanted);
  // Below the bars, so that the two never meet.
  const said = (fee: number, words: string, y: number): Word => {
    const right = fee > most / 2;
    return { x: fee, y, dx: right ? -7 : 7, align: right ? 'right' : 'left', text: words, plate: 'card' };
  };
  return {
    ...bars,
    height: bars.height + 2 * FOOT + 34,
    x: { ...bars.x, max: Math.max(1, most * 1.02) },
    y: { ...bars.y, max: 2.2 },
    layers: [
      ...bars.layers,
      uprightLayer(breakEven, [-0.5, 2.2], 'ink', 2, [9, 4]),
      uprightLayer(wanted, [-0.5, 2.2], 'ink', 2, [3, 4]),
    ],
    words: [
      ...(bars.words ?? []),
      said(breakEven, text.breakEven({ fat, fee: format.money(breakEven) }), 1.65),
      said(wanted, text.wanted({ fat, fee: format.money(wanted), share }), 2),
    ],
    key: [...charged, ...spent].filter(({ amount }) => amount > 0).map(({ name, paint }) => ({ text: name, look: paint })),
  };
} // prettier-ignore

import type { ServiceAnswer } from '../../../bridge/contract.ts';
import { hasFat } from './costs-words.ts';
import { type PartName, PARTS } from './parts-bar.ts';
import { text } from '../../../words/compiled/window/season/money.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { box, line, type Mark, type PathShape, type Scene, type Shape } from '../drawing/scene.ts';

const NAMES = 110;
const AMOUNTS = 90;
const BAR = 44;
const TAKE = 40;
const COST = 128;
const HEIGHT = 246;
const LINES = { top: TAKE - 16, bottom: COST + BAR + 34 };
/** Approximate width of a character, to decide what fits into a segment. */
const LETTER = 8;

/** Between a line and a name beside it. */
const INSET = 7;

/** Where the lines of the fees are, and what else decides where a name stands. */
interface Lines {
  fees: readonly number[];
  /** Pixels of one minor unit. */
  unit: number;
  width: number;
  ink: string;
}

interface Piece {
  name: string;
  amount: number;
  fill: (d: string) => PathShape;
  ink: string;
}

/** Two stacked bars on one scale, with the break-even fee and the wanted fee. */
export function drawFee(
  { fee, parts, cost, breakEven, wanted }: ServiceAnswer,
  share: string,
  format: Format,
  link: string,
  colors: ChartColors,
  width: number,
): Scene {
  const fat = hasFat({ parts, fee });
  const taken = fee ? fee.service + fee.fat : 0;
  const most = Math.max(taken, cost, breakEven, wanted, 1e-9);
  const unit = (width - NAMES - AMOUNTS) / most;
  const fees = [breakEven, wanted].map((one) => NAMES + one * unit);
  const lines = { fees, unit, width, ink: colors.ink };
  const takes: Piece[] = [
    { name: text.grindFee, amount: fee?.service ?? 0, fill: plain(colors.spruce), ink: colors.card },
    { name: text.fatCharge, amount: fee?.fat ?? 0, fill: plain(colors.fat), ink: colors.onFat },
  ];
  const costs = PARTS.map((part): Piece => ({
    name: text.parts[part],
    amount: parts[part],
    fill: partFill(part, colors),
    ink: part === 'fat' ? colors.onFat : part === 'wages' ? colors.onSinew : colors.ink,
  }));
  const bar = (name: string, pieces: readonly Piece[], total: number, y: number): Mark => ({
    label: `${name} ${format.money(total)}: ${saidParts(pieces, format)}`,
    link,
    shapes: [
      { kind: 'text', x: 0, y: y + 28, text: name, size: 15, weight: 600, fill: colors.ink },
      ...stacked(pieces, y, lines),
      {
        kind: 'text',
        x: NAMES + total * unit + 10,
        y: y + 28,
        text: format.money(total),
        size: 16,
        weight: 700,
        fill: colors.ink,
      },
    ],
  });
  return {
    width,
    height: HEIGHT,
    marks: [
      bar(text.take, takes, taken, TAKE),
      bar(text.costs, costs, cost, COST),
      feeLine(
        NAMES + breakEven * unit,
        text.breakEven({ fat, fee: format.money(breakEven) }),
        false,
        width,
        colors,
      ),
      feeLine(
        NAMES + wanted * unit,
        text.wanted({ fat, fee: format.money(wanted), share }),
        true,
        width,
        colors,
      ),
    ],
  };
}

function saidParts(pieces: readonly Piece[], format: Format): string {
  return pieces.map(({ name, amount }) => `${name} ${format.money(amount)}`).join(', ');
}

/** Segments side by side; a name is inside its segment, or below it where it does not fit or a line would cross it. */
function stacked(pieces: readonly Piece[], y: number, lines: Lines): Shape[] {
  let x = NAMES;
  let below = 0;
  return pieces.flatMap(({ name, amount, fill, ink }): Shape[] => {
    const [left, wide] = [x, amount * lines.unit];
    x += wide;
    if (wide <= 0) return [];
    const long = name.length * LETTER;
    const segment = fill(box(left, y, Math.max(1, wide - 1.5), BAR, 3));
    const print = { kind: 'text' as const, text: name, size: FONT_SIZE };
    const inside = nameAt(left + INSET, left + wide - 1, long, lines);
    if (inside !== undefined) return [segment, { ...print, x: inside, y: y + 27, fill: ink }];
    const under = nameAt(Math.max(left, below), lines.width, long, lines);
    if (under === undefined) return [segment];
    below = under + long + INSET;
    return [segment, { ...print, x: under, y: y + BAR + 17, fill: lines.ink }];
  });
}

/** Where a name of this length begins: at `from`, or right of a line that would cross it; undefined if `to` is too near. */
function nameAt(from: number, to: number, long: number, { fees }: Lines): number | undefined {
  return [from, ...fees.map((fee) => fee + INSET).filter((at) => at > from)]
    .sort((a, b) => a - b)
    .find((at) => at + long <= to && fees.every((fee) => fee < at || fee > at + long));
}

/** One fee as a line across both bars; its label is above, or below for the wanted fee, and never beyond the edge. */
function feeLine(x: number, words: string, below: boolean, width: number, colors: ChartColors): Mark {
  const right = x + words.length * LETTER > width;
  return {
    shapes: [
      {
        kind: 'path',
        d: line(x, LINES.top, x, LINES.bottom),
        stroke: colors.ink,
        strokeWidth: 2,
        dash: below ? [3, 4] : [9, 4],
      },
      {
        kind: 'text',
        x: right ? x - 6 : x + 6,
        y: below ? LINES.bottom + 2 : LINES.top + 4,
        text: words,
        size: FONT_SIZE,
        fill: colors.ink,
        anchor: right ? 'end' : 'start',
      },
    ],
  };
}

function plain(fill: string): (d: string) => PathShape {
  return (d) => ({ kind: 'path', d, fill });
}

/** Parts of a cost, distinguishable without color. */
function partFill(part: PartName, colors: ChartColors): (d: string) => PathShape {
  const edge = { kind: 'path' as const, stroke: colors.steel, strokeWidth: 1 };
  return (d) =>
    ({
      wages: { ...edge, d, fill: colors.steel },
      overhead: { ...edge, d, fill: colors.card, pattern: { kind: 'hatch' as const, ink: colors.line } },
      packaging: { ...edge, d, fill: colors.card, pattern: { kind: 'dots' as const, ink: colors.steel } },
      fat: { ...edge, d, fill: colors.fat },
    })[part];
}

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
      ...stacked(pieces, y, unit),
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

/** Segments side by side; a name is inside its segment if it fits, else below it if there is room. */
function stacked(pieces: readonly Piece[], y: number, unit: number): Shape[] {
  let x = NAMES;
  return pieces.flatMap(({ name, amount, fill, ink }) => {
    const [left, wide] = [x, amount * unit];
    x += wide;
    if (wide <= 0) return [];
    const inside = wide > name.length * LETTER + 8;
    return [
      fill(box(left, y, Math.max(1, wide - 1.5), BAR, 3)),
      ...(inside
        ? [{ kind: 'text' as const, x: left + 7, y: y + 27, text: name, size: FONT_SIZE, fill: ink }]
        : []),
    ];
  });
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

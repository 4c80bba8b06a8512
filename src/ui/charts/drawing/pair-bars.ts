import { FONT_SIZE } from './axes.ts';
import type { ChartColors } from './colors.ts';
import { box, type Mark, type PathShape, type Scene } from './scene.ts';

/** One row of two bars: the billed amount, and below it the cost (null: none of its own). */
export interface PairRow {
  name: string;
  billed: number;
  cost: number | null;
  /** Texts after the bars. */
  billedText: string;
  costText: string;
  /** Bold text at the right end; `short` for a loss. */
  leftText: string;
  short: boolean;
  link: string;
  label: string;
}

const ROW = 68;
const BAR = 22;
const NAMES = 210;
const NUMBERS = 112;
const LEFT_OVER = 170;

/** Two bars for each row on a common scale from zero, with their amounts. */
export function drawPairs(rows: readonly PairRow[], colors: ChartColors, width: number): Scene {
  const most = Math.max(1, ...rows.flatMap(({ billed, cost }) => [billed, cost ?? 0]));
  const room = Math.max(40, width - NAMES - NUMBERS - LEFT_OVER);
  const long = (amount: number): number => Math.max(2, (Math.max(0, amount) / most) * room);
  const marks = rows.map((row, i): Mark => {
    const y = i * ROW + 8;
    const print = { kind: 'text' as const, size: FONT_SIZE, fill: colors.ink };
    return {
      label: row.label,
      link: row.link,
      shapes: [
        { ...print, x: 0, y: y + 28, text: row.name, size: 15, weight: 600 },
        { kind: 'path', d: box(NAMES, y, long(row.billed), BAR, 3), fill: colors.spruce },
        { ...print, x: NAMES + long(row.billed) + 10, y: y + 16, text: row.billedText },
        ...(row.cost === null ? [] : [costBar(box(NAMES, y + BAR + 3, long(row.cost), BAR, 3), colors)]),
        {
          ...print,
          x: NAMES + (row.cost === null ? 0 : long(row.cost) + 10),
          y: y + BAR + 19,
          text: row.costText,
          fill: colors.muted,
        },
        {
          ...print,
          x: width,
          y: y + 28,
          text: `${row.short ? '▼ ' : ''}${row.leftText}`,
          size: 16,
          weight: 700,
          fill: row.short ? colors.blaze : colors.ink,
          anchor: 'end',
        },
      ],
    };
  });
  return { width, height: rows.length * ROW, marks };
}

/** The cost has a pattern, so that it is distinguishable from the billed amount without color. */
export function costBar(d: string, colors: ChartColors): PathShape {
  return {
    kind: 'path',
    d,
    fill: colors.card,
    stroke: colors.steel,
    strokeWidth: 1.5,
    pattern: { kind: 'hatch', ink: colors.steel },
  };
}

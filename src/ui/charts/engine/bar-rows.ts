/** Bars that lie below each other from zero, each with its amount in words at its end. */
import type { Axis, AxisPlot, Bar, Mark, Word } from '../plot.ts';
import { FOOT, namesAxis, TITLE } from './axes.ts';
import type { Paint } from './paint.ts';

/** A bar of one or more pieces; without pieces only its words stand there. */
export interface BarLine {
  pieces: readonly { amount: number; paint: Paint }[];
  words: string;
}

export interface BarRow {
  name: string | string[];
  /** One bar, or two below each other. */
  lines: readonly BarLine[];
  /** A text below the bar, from its beginning. */
  below?: string;
  /** Bold at the right edge; `short` for a loss. */
  outcome?: { words: string; short: boolean };
  label: string;
  link: string;
}

/** Heights of a row and of a bar, and estimated width of a character, in CSS pixels. */
const [ROW, PAIR, THICK, HALF] = [48, 66, 28, 21];
const BELOW = 26;
const LETTER = 7.6;
/** Distance of two bars of a row, as a part of the row. */
const APART = 0.37;
const EDGE = 16;

export function barRows(rows: readonly BarRow[], axis: Omit<Axis, 'min'>): AxisPlot {
  const pair = rows.some(({ lines }) => lines.length > 1);
  const placed = rows.flatMap(({ lines }, row) =>
    lines.map((line, i) => {
      const at = row + (pair ? (i - 0.5) * APART : 0);
      let to = 0;
      const bars = line.pieces.map(({ amount, paint }): Bar => {
        const from = to;
        to += Math.max(0, amount);
        return { at, from, to, paint };
      });
      return { at, bars, to, words: line.words, first: i === 0 };
    }),
  );
  const amounts = placed.map(({ at, to, words, first }): Word => ({ x: to, y: at, dx: 8, text: words, tone: first ? 'ink' : 'muted' })); // prettier-ignore
  const outcomes = rows.flatMap(({ outcome }, y): Word[] =>
    outcome
      ? [{ x: 'end', y, text: `${outcome.short ? '▼ ' : ''}${outcome.words}`, bold: true, size: 16, tone: outcome.short ? 'blaze' : 'ink' }] // prettier-ignore
      : [],
  );
  const below = rows.flatMap(({ below: text }, y): Word[] =>
    text ? [{ x: 0, y, dx: 6, dy: 25, text }] : [],
  );
  const longest = (words: readonly Word[]): number => Math.max(0, ...words.map(({ text }) => text.length));
  const room = longest(amounts) * LETTER + longest(outcomes) * (LETTER + 1) + EDGE;
  return {
    height:
      rows.length * ((pair ? PAIR : ROW) + (below.length > 0 ? BELOW : 0)) + FOOT + (axis.title ? TITLE : 0),
    lying: true,
    x: { ...axis, min: 0, max: Math.max(1, ...placed.map(({ to }) => to)) },
    y: namesAxis(rows.map(({ name }) => name)),
    layers: [
      {
        kind: 'bars',
        thick: pair ? HALF : THICK,
        edge: 'steel',
        radius: 3,
        bars: placed.flatMap(({ bars }) => bars),
      },
    ],
    words: [...amounts, ...outcomes, ...below],
    marks: rows.map(({ label, link }, row): Mark => ({ label, link, y: [row - 0.5, row + 0.5] })),
    room: { right: room },
  };
}

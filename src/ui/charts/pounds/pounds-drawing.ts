import type { PoundsReport } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/pounds.ts';
import type { Format } from '../../texts/format.ts';
import { FONT_SIZE } from '../drawing/axes.ts';
import type { ChartColors } from '../drawing/colors.ts';
import { fateName } from './fate-name.ts';
import { drawGrinder } from '../flow/grinder-drawing.ts';
import { type Fate, painted, streamed } from '../drawing/part-paint.ts';
import { isHome, layPounds, type PoundsLayout, type Stream, weighedOf } from './pounds-layout.ts';
import { box, line, type Mark, ribbon, type Scene, type TextShape } from '../drawing/scene.ts';

const BAR = 26;
const END = 14;
const TOP = 62;
const TALL = 380;
/** Height of the grinder's picture. */
const GRINDER = 190;
/** A second end below the first. */
const SECOND_END = 40;

/** Streams from the hook to each fate; at the bottom right the grinder's input and output. */
export function drawPounds(
  view: PoundsReport,
  format: Format,
  linkOf: (fate: Fate) => string,
  colors: ChartColors,
  width: number,
): Scene {
  const laid = layPounds(view, TOP, TALL);
  const [ends, home, grinderAt] = [0.36, 0.74, 0.645].map((share) => Math.round(width * share)) as [
    number,
    number,
    number,
  ];
  const grinderTall = GRINDER + (view.grinder.driedGrams > 0 && view.grinder.lossGrams > 0 ? SECOND_END : 0);
  const grinderTop = Math.max(laid.home.top + laid.home.tall + 60, laid.bottom - grinderTall);
  const ground = view.grinder.inGrams > 0;
  return {
    width,
    height:
      Math.max(laid.bottom, ground ? grinderTop + grinderTall : 0, laid.over ? beyondAt(laid.over) : 0) + 12,
    marks: [
      ...headings(view, laid, format, colors),
      ...laid.streams.map((stream) => streamMark(stream, view, format, linkOf, colors, { ends, home, laid })),
      homeMark(view, laid, home, format, colors),
      ...(ground
        ? drawGrinder(view.grinder, format, colors, {
            x: grinderAt,
            y: grinderTop,
            width: width - grinderAt,
          })
        : []),
    ],
  };
}

/** Baseline of the text on excess weight: below the streams at the foot of the bar. */
function beyondAt({ top, tall }: { top: number; tall: number }): number {
  return top + tall + 84;
}

/** The bar of the hanging weight with its weight above, and the excess weight below. */
function headings(
  view: PoundsReport,
  { base, over }: PoundsLayout,
  format: Format,
  colors: ChartColors,
): Mark[] {
  const above = { kind: 'text' as const, x: 0, fill: colors.ink };
  const bar: Mark = {
    label: `${text.onTheHook}: ${format.mass(view.baseGrams, 0)}`,
    shapes: [
      { ...above, y: 20, text: text.onTheHook, size: FONT_SIZE, weight: 600, fill: colors.muted },
      { ...above, y: 46, text: format.mass(view.baseGrams, 0), size: 24, weight: 700 },
      { kind: 'path', d: box(0, base.top, BAR, base.tall, 3), fill: colors.spruce },
    ],
  };
  if (!over) return [bar];
  const [from, to] = [over.top + over.tall, beyondAt(over)];
  const beyond: Mark = {
    label: text.over({ mass: format.mass(view.overGrams, 1) }),
    shapes: [
      {
        kind: 'path',
        d: box(0, over.top + 2, BAR, Math.max(4, over.tall - 2), 2),
        fill: colors.card,
        stroke: colors.blaze,
        strokeWidth: 2,
        pattern: { kind: 'cross', ink: colors.blaze },
      },
      {
        kind: 'path',
        d: line(8, from + 6, 8, to - 18),
        stroke: colors.blaze,
        strokeWidth: 1.5,
        dash: [4, 3],
      },
      { ...above, y: to, text: text.over({ mass: format.mass(view.overGrams, 1) }), size: FONT_SIZE, weight: 600, fill: colors.blaze }, // prettier-ignore
    ],
  };
  return [bar, beyond];
}

interface Places {
  ends: number;
  home: number;
  laid: PoundsLayout;
}

function streamMark(
  { fate, grams, from, to, tall }: Stream,
  view: PoundsReport,
  format: Format,
  linkOf: (fate: Fate) => string,
  colors: ChartColors,
  { ends, home, laid }: Places,
): Mark {
  const amount = `${format.mass(grams, 0)} · ${format.share(grams / weighedOf(view))}`;
  const middle = to + tall / 2;
  const words = { kind: 'text' as const, x: ends + END + 12, fill: colors.ink };
  const onward = isHome(fate)
    ? [streamed(fate, ribbon(ends + END, to, tall, home, homeTop(fate, laid), tall), colors)]
    : [];
  return {
    label: `${fateName(view, fate)}: ${amount}`,
    link: linkOf(fate),
    shapes: [
      streamed(fate, ribbon(BAR, from, tall, ends, to, tall), colors),
      ...onward,
      painted(fate, box(ends, to, END, Math.max(2, tall), 3), colors),
      { ...words, y: middle - 3, text: fateName(view, fate), size: 15, weight: 700 },
      { ...words, y: middle + 16, text: amount, size: FONT_SIZE },
    ],
  };
}

/** Where a stream joins the take-home: below those before it. */
function homeTop(fate: Fate, { streams, home }: PoundsLayout): number {
  const before = streams.slice(
    0,
    streams.findIndex((one) => one.fate === fate),
  );
  return home.top + before.reduce((total, { tall }) => total + tall, 0);
}

function homeMark(
  view: PoundsReport,
  { home }: PoundsLayout,
  x: number,
  format: Format,
  colors: ChartColors,
): Mark {
  const words: Omit<TextShape, 'y' | 'text' | 'size'> = { kind: 'text', x: x + BAR + 14, fill: colors.ink };
  const middle = home.top + home.tall / 2;
  const share = home.grams / weighedOf(view);
  return {
    label: `${text.takeHome}: ${format.mass(home.grams, 0)}`,
    shapes: [
      { kind: 'path', d: box(x, home.top, BAR, home.tall, 3), fill: colors.spruce },
      { ...words, y: middle - 26, text: text.takeHome, size: FONT_SIZE, weight: 600, fill: colors.muted },
      { ...words, y: middle + 4, text: format.share(share), size: 30, weight: 700 },
      { ...words, y: middle + 28, text: format.mass(home.grams, 0), size: 18 },
      {
        kind: 'path',
        d: line(x + BAR + 6, home.top, x + BAR + 6, home.top + home.tall),
        stroke: colors.line,
      },
    ],
  };
}

/** Fills of bars, points and bands: a color of the style sheet, pale or with a pattern that tells it apart without color. */
import type { ChartColors } from './colors.ts';

export type Tone = Exclude<keyof ChartColors, 'font'>;
export type Pattern = 'hatch' | 'dots' | 'cross';
export type Paint =
  | Tone
  | 'none'
  | { tone: Tone; strength: number }
  | { pattern: Pattern; ink: Tone; on: Tone };

/** Side of the repeated square of a pattern, in CSS pixels, and the dots per pixel it is drawn with, enough for paper. */
const TILE = 8;
const DOTS = 3;

/** The strokes of each square as path data, and their width. Diagonals continue into the neighbors. */
const STROKES: Readonly<Record<Pattern, { path: string; width: number }>> = {
  hatch: { path: 'M-2 2L2 -2M-2 10L10 -2M6 10L10 6', width: 2.4 },
  dots: { path: 'M2 2h.01M6 6h.01', width: 2.2 },
  cross: { path: 'M0 4H8M4 0V8', width: 1.2 },
};

/** The fill of a paint in the current theme. @throws Error where the browser draws nothing at all */
export function fillOf(paint: Paint, colors: ChartColors): string | CanvasPattern {
  if (paint === 'none') return 'transparent';
  if (typeof paint === 'string') return colors[paint];
  if ('strength' in paint)
    return `color-mix(in srgb, ${colors[paint.tone]} ${Math.round(paint.strength * 100)}%, transparent)`;
  return patternOf(paint, colors);
}

function patternOf(
  { pattern, ink, on }: Extract<Paint, { pattern: Pattern }>,
  colors: ChartColors,
): CanvasPattern {
  const tile = document.createElement('canvas');
  tile.width = tile.height = TILE * DOTS;
  const pen = tile.getContext('2d');
  if (!pen) throw new Error('No drawing surface');
  pen.fillStyle = colors[on];
  pen.fillRect(0, 0, tile.width, tile.height);
  pen.scale(DOTS, DOTS);
  pen.strokeStyle = colors[ink];
  pen.lineCap = 'round';
  pen.lineWidth = STROKES[pattern].width;
  pen.stroke(new Path2D(STROKES[pattern].path));
  const fill = pen.createPattern(tile, 'repeat');
  if (!fill) throw new Error('No pattern');
  fill.setTransform(new DOMMatrix().scale(1 / DOTS));
  return fill;
}

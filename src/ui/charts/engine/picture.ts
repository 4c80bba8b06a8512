import type { Plot } from '../plot.ts';
import { citedText, type ChartStory } from '../story.ts';
import { type ChartColors, colorsOfPaper } from './colors.ts';
import { columnsIn, GAP } from './panels.ts';

/** Width of a saved picture in pixels, and the pixel ratio: 2,880 dots, 348 per inch across an A4 sheet of 8.27 in. */
const WIDTH = 960;
const RATIO = 3;
const MARGIN = 24;
const LINE = 24;

/** The plots themselves, `height` pixels tall together, painted at the origin of an already scaled pen. */
interface Drawing {
  height: number;
  paint: (pen: CanvasRenderingContext2D) => void;
}

/**
 * A chart with its title, finding and notes on one sheet, so that a saved picture explains itself: in the light
 * theme and at print resolution, whatever the window shows.
 */
export async function pictureOf(story: ChartStory): Promise<Blob> {
  const colors = colorsOfPaper();
  await document.fonts.ready;
  const drawing = await drawingOf(story, colors, WIDTH - 2 * MARGIN);
  const sheet = paintSheet(story, drawing, colors);
  return new Promise((resolve, reject) =>
    sheet.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('No picture came of the sheet')))),
  );
}

/** Plots off screen, so that size and theme of the window do not affect the picture. */
async function drawingOf({ plots, least }: ChartStory, colors: ChartColors, width: number): Promise<Drawing> {
  const { drawPlot } = await import('./draw.ts');
  const columns = columnsIn(width, least);
  const wide = (width - (columns - 1) * GAP) / columns;
  const copies = plots.map((plot) => {
    const canvas = document.createElement('canvas');
    const chart = drawPlot(canvas, plot, colors, { width: wide, ratio: RATIO });
    const copy = document.createElement('canvas');
    copy.width = canvas.width;
    copy.height = canvas.height;
    context(copy).drawImage(canvas, 0, 0);
    chart.destroy();
    return { copy, plot };
  });
  const places = placesOf(plots, columns, wide);
  return {
    height: Math.max(...places.map(({ top }, i) => top + (plots[i]?.height ?? 0))),
    paint: (pen) =>
      places.forEach(({ left, top }, i) => {
        const { copy, plot } = copies[i] ?? {};
        if (copy && plot) pen.drawImage(copy, left, top, wide, plot.height);
      }),
  };
}

/** Lines of plots below each other, each as tall as its tallest plot. */
function placesOf(plots: readonly Plot[], columns: number, wide: number): { left: number; top: number }[] {
  let top = 0;
  return plots.map((_, i) => {
    const column = i % columns;
    if (i > 0 && column === 0)
      top += GAP + Math.max(...plots.slice(i - columns, i).map(({ height }) => height));
    return { left: column * (wide + GAP), top };
  });
}

function paintSheet(story: ChartStory, drawing: Drawing, colors: ChartColors): HTMLCanvasElement {
  const sheet = document.createElement('canvas');
  const pen = context(sheet);
  const body = `16px ${colors.font}`;
  const small = `14px ${colors.font}`;
  pen.font = body;
  const finding = wrap(pen, story.finding, WIDTH - 2 * MARGIN);
  pen.font = small;
  const notes = [story.n, ...story.notes, ...story.sources.map(citedText)].flatMap((note) =>
    wrap(pen, note, WIDTH - 2 * MARGIN),
  );
  const top = 2 * MARGIN + LINE * (1 + finding.length);
  const height = top + drawing.height + MARGIN + LINE * notes.length + MARGIN;

  sheet.width = WIDTH * RATIO;
  sheet.height = Math.round(height * RATIO);
  pen.scale(RATIO, RATIO);
  pen.fillStyle = '#fff';
  pen.fillRect(0, 0, WIDTH, height);
  pen.textBaseline = 'top';
  write(pen, [story.title], MARGIN, `700 18px ${colors.font}`, colors.ink);
  write(pen, finding, MARGIN + LINE + 6, body, colors.ink);
  pen.save();
  pen.translate(MARGIN, top);
  drawing.paint(pen);
  pen.restore();
  write(pen, notes, top + drawing.height + MARGIN, small, colors.muted);
  return sheet;
}

function context(canvas: HTMLCanvasElement): CanvasRenderingContext2D {
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('No drawing surface');
  return pen;
}

function write(
  pen: CanvasRenderingContext2D,
  lines: string[],
  top: number,
  font: string,
  color: string,
): void {
  pen.font = font;
  pen.fillStyle = color;
  lines.forEach((line, i) => pen.fillText(line, MARGIN, top + i * LINE));
}

/** Breaks a text between words so that no line exceeds `width` in the pen's font. */
export function wrap(
  pen: Pick<CanvasRenderingContext2D, 'measureText'>,
  text: string,
  width: number,
): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const longer = lines.length === 0 ? word : `${lines.at(-1)} ${word}`;
    if (lines.length > 0 && pen.measureText(longer).width <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

import type { ChartColours } from './colours.ts';
import type { ChartStory } from './story.ts';

const MARGIN = 24;
const LINE = 24;

/** Paints a chart with its title, finding and notes on one sheet, so that a saved picture explains itself. */
export function paintPicture(
  chart: HTMLCanvasElement,
  story: ChartStory,
  colours: ChartColours,
): HTMLCanvasElement {
  const width = chart.clientWidth + 2 * MARGIN;
  const scale = chart.width / chart.clientWidth;
  const sheet = document.createElement('canvas');
  const pen = context(sheet);
  const body = `16px ${colours.font}`;
  const small = `14px ${colours.font}`;
  pen.font = body;
  const finding = wrap(pen, story.finding, width - 2 * MARGIN);
  pen.font = small;
  const notes = [story.n, ...story.notes, ...story.sources].flatMap((note) =>
    wrap(pen, note, width - 2 * MARGIN),
  );
  const top = 2 * MARGIN + LINE * (1 + finding.length);
  const height = top + chart.clientHeight + MARGIN + LINE * notes.length + MARGIN;

  sheet.width = Math.round(width * scale);
  sheet.height = Math.round(height * scale);
  pen.scale(scale, scale);
  pen.fillStyle = colours.card;
  pen.fillRect(0, 0, width, height);
  pen.textBaseline = 'top';
  write(pen, [story.title], MARGIN, `700 18px ${colours.font}`, colours.ink);
  write(pen, finding, MARGIN + LINE + 6, body, colours.ink);
  pen.drawImage(chart, MARGIN, top, chart.clientWidth, chart.clientHeight);
  write(pen, notes, top + chart.clientHeight + MARGIN, small, colours.muted);
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
  colour: string,
): void {
  pen.font = font;
  pen.fillStyle = colour;
  lines.forEach((line, i) => pen.fillText(line, MARGIN, top + i * LINE));
}

/** Breaks a text between words so that no line is wider than `width` in the pen's font. */
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

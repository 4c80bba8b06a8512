import { FONT_SIZE } from './axes.ts';
import type { ChartColours } from './colours.ts';
import { box, line, type Mark, type PathShape, type Scene } from './scene.ts';

/** One bar: what it stands for on its left, its value in words at its end. */
interface Bar {
  name: string;
  note: string;
  value: number;
  words: string;
  fill: Pick<PathShape, 'fill' | 'pattern'>;
  link?: string;
}

const ROW = 58;
const THICK = 34;
const NAMES = 240;
/** Room for the words at the end of the longest bar. */
const WORDS = 150;

/** Bars of one scale from nought, each with its words beside it, so that no axis and no legend need be read. */
export function drawBars(bars: readonly Bar[], colours: ChartColours, width: number): Scene {
  const most = Math.max(...bars.map(({ value }) => value));
  const scale = (width - NAMES - WORDS) / (most > 0 ? most : 1);
  const print = { kind: 'text' as const, size: FONT_SIZE };
  const rows = bars.map(({ name, note, value, words, fill, link }, i): Mark => {
    const top = i * ROW + 6;
    const long = value * scale;
    return {
      says: `${name}: ${words}`,
      ...(link ? { link } : {}),
      shapes: [
        { ...print, x: 0, y: top + 15, text: name, weight: 600, fill: colours.ink },
        { ...print, x: 0, y: top + 33, text: note, fill: colours.muted },
        { kind: 'path', d: box(NAMES, top, Math.max(long, 1), THICK, 2), stroke: colours.ink, strokeWidth: 1, ...fill },
        { ...print, x: NAMES + long + 10, y: top + 22, text: words, weight: 600, fill: colours.ink },
      ],
    }; // prettier-ignore
  });
  const height = bars.length * ROW;
  const foot: Mark = {
    shapes: [{ kind: 'path', d: line(NAMES, 0, NAMES, height), stroke: colours.ink, strokeWidth: 1.5 }],
  };
  return { width, height, marks: [...rows, foot] };
}

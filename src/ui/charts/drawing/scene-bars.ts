import { FONT_SIZE } from './axes.ts';
import type { ChartColors } from './colors.ts';
import { box, line, type Mark, type PathShape, type Scene } from './scene.ts';

/** One bar, with its name on the left and its value at the end. */
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
/** Room for the text after the longest bar. */
const WORDS = 150;

/** Bars on a common scale from zero, each labeled, so that no axis or legend is needed. */
export function drawBars(bars: readonly Bar[], colors: ChartColors, width: number): Scene {
  const most = Math.max(...bars.map(({ value }) => value));
  const scale = (width - NAMES - WORDS) / (most > 0 ? most : 1);
  const print = { kind: 'text' as const, size: FONT_SIZE };
  const rows = bars.map(({ name, note, value, words, fill, link }, i): Mark => {
    const top = i * ROW + 6;
    const long = value * scale;
    return {
      label: `${name}: ${words}`,
      ...(link ? { link } : {}),
      shapes: [
        { ...print, x: 0, y: top + 15, text: name, weight: 600, fill: colors.ink },
        { ...print, x: 0, y: top + 33, text: note, fill: colors.muted },
        { kind: 'path', d: box(NAMES, top, Math.max(long, 1), THICK, 2), stroke: colors.ink, strokeWidth: 1, ...fill },
        { ...print, x: NAMES + long + 10, y: top + 22, text: words, weight: 600, fill: colors.ink },
      ],
    }; // prettier-ignore
  });
  const height = bars.length * ROW;
  const foot: Mark = {
    shapes: [{ kind: 'path', d: line(NAMES, 0, NAMES, height), stroke: colors.ink, strokeWidth: 1.5 }],
  };
  return { width, height, marks: [...rows, foot] };
}

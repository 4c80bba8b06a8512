/** Texts on a plot. The package for labels cannot put one where no bar or point is, and is six times as long. */
import type { Chart, ChartType, Plugin } from 'chart.js';
import type { ChartColors } from './colors.ts';
import type { Word } from '../plot.ts';
import { FONT_SIZE } from './axes.ts';

/** Room on each side of a text within its bar, in CSS pixels. */
const INSET = 5;

/** Writes the words over the finished plot. */
export function wordsPlugin(words: readonly Word[], colors: ChartColors): Plugin<ChartType> {
  return {
    id: 'words',
    afterDatasetsDraw: (chart) => {
      chart.ctx.save();
      for (const word of words) write(chart, word, colors);
      chart.ctx.restore();
    },
  };
}

function write({ ctx: pen, scales, width, chartArea }: Chart, word: Word, colors: ChartColors): void {
  const { x: across, y: up } = scales;
  if (!across || !up) return;
  const size = word.size ?? FONT_SIZE;
  pen.font = `${word.bold ? 700 : 400} ${size}px ${colors.font}`;
  const room =
    word.within === undefined
      ? Infinity
      : Math.abs(across.getPixelForValue(word.within) - across.getPixelForValue(0));
  const fits = (text: string): boolean => pen.measureText(text).width + 2 * INSET <= room;
  const text = [word.text, ...(word.or === undefined ? [] : [word.or])].find(fits);
  if (text === undefined) return;
  const wide = pen.measureText(text).width;
  const align = word.align ?? (word.x === 'end' ? 'right' : 'left');
  const edge = word.x === 'start' ? 0 : word.x === 'end' ? width : across.getPixelForValue(word.x);
  const x = edge + (word.dx ?? 0);
  const level =
    word.y === 'top' ? chartArea.top : word.y === 'bottom' ? chartArea.bottom : up.getPixelForValue(word.y);
  const y = level + (word.dy ?? 0);
  if (word.plate) {
    const left = align === 'center' ? x - wide / 2 : align === 'right' ? x - wide : x;
    pen.fillStyle = colors[word.plate];
    pen.fillRect(left - INSET, y - size / 2 - 2, wide + 2 * INSET, size + 4);
  }
  pen.fillStyle = colors[word.tone ?? 'ink'];
  pen.textAlign = align;
  pen.textBaseline = 'middle';
  pen.fillText(text, x, y);
}

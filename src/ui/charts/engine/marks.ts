/** Where the marks of a plot lie on the page, and how the arrow keys walk through them. */
import type { Chart } from 'chart.js';
import type { Mark } from '../plot.ts';

/** In CSS pixels from the upper left corner of the picture. */
export interface PlacedMark extends Mark {
  left: number;
  top: number;
  width: number;
  height: number;
}

/** The smallest side of what can be pointed at, in CSS pixels. */
const LEAST = 16;

export function placeMarks(chart: Chart, marks: readonly Mark[]): PlacedMark[] {
  const { x, y } = chart.scales;
  return marks.map((mark) => {
    const across = mark.x && x ? mark.x.map((value) => x.getPixelForValue(value)) : [0, chart.width];
    const up = mark.y && y ? mark.y.map((value) => y.getPixelForValue(value)) : [0, chart.height];
    const [left, width] = side(across, chart.width);
    const [top, height] = side(up, chart.height);
    return { ...mark, left, top, width, height };
  });
}

/** Start and length of a side, made long enough to be hit, within the picture. */
function side(ends: readonly number[], whole: number): [number, number] {
  const [from, to] = [Math.min(...ends), Math.max(...ends)];
  const length = Math.max(LEAST, to - from);
  const start = Math.max(0, (from + to - length) / 2);
  return [start, Math.min(length, whole - start)];
}

/** Index of the smallest mark at a place: a point before the box around it. −1 where there is none. */
export function markAt(marks: readonly PlacedMark[], x: number, y: number): number {
  let found = -1;
  let least = Infinity;
  marks.forEach(({ left, top, width, height }, i) => {
    const inside = x >= left && x <= left + width && y >= top && y <= top + height;
    const away = Math.hypot(x - left - width / 2, y - top - height / 2) / 1e6;
    if (inside && width * height + away < least) [found, least] = [i, width * height + away];
  });
  return found;
}

/** The mark that a key leads to from the `from`-th of `count`; null for other keys. */
export function stepBy(key: string, from: number, count: number): number | null {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowDown':
      return Math.min(count - 1, from + 1);
    case 'ArrowLeft':
    case 'ArrowUp':
      return Math.max(0, from - 1);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return null;
  }
}

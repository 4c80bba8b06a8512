import type { Pattern } from './scene.ts';

/** Side of the square that a pattern repeats, in pixels. */
export const TILE = 8;

/** What is drawn in each square: strokes as path data, and how wide. Diagonals run on into the neighbours. */
export const TILES: Readonly<Record<Pattern, { d: string; width: number }>> = {
  hatch: { d: 'M-2 2L2 -2M-2 10L10 -2M6 10L10 6', width: 2.4 },
  dots: { d: 'M2 2h.01M6 6h.01', width: 2.2 },
  cross: { d: 'M0 4H8M4 0V8', width: 1.2 },
};

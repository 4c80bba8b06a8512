import type { Pattern } from './scene.ts';

/** Side of the repeated square of a pattern, in pixels. */
export const TILE = 8;

/** The strokes of each square as path data, and their width. Diagonals continue into the neighbors. */
export const TILES: Readonly<Record<Pattern, { d: string; width: number }>> = {
  hatch: { d: 'M-2 2L2 -2M-2 10L10 -2M6 10L10 6', width: 2.4 },
  dots: { d: 'M2 2h.01M6 6h.01', width: 2.2 },
  cross: { d: 'M0 4H8M4 0V8', width: 1.2 },
};

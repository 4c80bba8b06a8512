/** A signature as path data of SVG in a box of 1000 × 300, in whole numbers. Pure. */

export const BOX = { width: 1000, height: 300 } as const;
/** Points nearer than this to the last one change nothing that an eye sees. */
const STEP = 6;
/** As much as the desk takes (src/desk/animals/check-in/draft-input.ts). */
const MOST = 12_000;
/** A point takes at most `L1000,300`. */
const POINT = 9;

export interface Point {
  x: number;
  y: number;
}

/** @example pointIn({ left: 0, top: 0, width: 500, height: 150 }, 250, 75) // { x: 500, y: 150 } */
export function pointIn(
  { left, top, width, height }: Pick<DOMRect, 'left' | 'top' | 'width' | 'height'>,
  x: number,
  y: number,
): Point {
  const within = (at: number, most: number) => Math.min(Math.max(Math.round(at), 0), most);
  return {
    x: within(((x - left) / width) * BOX.width, BOX.width),
    y: within(((y - top) / height) * BOX.height, BOX.height),
  };
}

/** Begins a stroke: a dot until it goes on. */
export const begun = (path: string, { x, y }: Point): string =>
  added(path, `M${x},${y}L${x},${y}`, 2 * POINT);

/** Goes on with the last stroke. */
export function drawn(path: string, { x, y }: Point): string {
  const last = /(\d+),(\d+)$/.exec(path);
  if (!last || Math.hypot(x - Number(last[1]), y - Number(last[2])) < STEP) return path;
  return added(path, `L${x},${y}`, POINT);
}

const added = (path: string, more: string, room: number): string =>
  path.length + room > MOST ? path : path + more;

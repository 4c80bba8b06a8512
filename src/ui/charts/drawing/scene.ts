/**
 * A picture as plain shapes in pixels. The window shows it as SVG with links, a saved file paints the same shapes
 * on a canvas: both look alike and neither needs the other's fonts.
 */

/** Fills that are distinguishable without color; their lines are drawn in `ink`. */
export type Pattern = 'hatch' | 'dots' | 'cross';

export interface PathShape {
  kind: 'path';
  /** Path data as in SVG. */
  d: string;
  fill?: string;
  opacity?: number;
  stroke?: string;
  strokeWidth?: number;
  dash?: readonly number[];
  pattern?: { kind: Pattern; ink: string };
}

export interface TextShape {
  kind: 'text';
  x: number;
  /** Of the base line. */
  y: number;
  text: string;
  size: number;
  weight?: number;
  fill: string;
  anchor?: 'start' | 'middle' | 'end';
}

export type Shape = PathShape | TextShape;

/** A group of shapes with one accessible name and one link. */
export interface Mark {
  shapes: Shape[];
  /** The link target. */
  link?: string;
  /**
   * One of many marks whose link is also in the table: usable by pointer, skipped by the Tab key and screen
   * readers.
   */
  quiet?: true;
  /** Its meaning, as a tooltip and accessible name. */
  label?: string;
}

export interface Scene {
  width: number;
  height: number;
  marks: Mark[];
}

const n = (value: number): string => String(Math.round(value * 100) / 100);

/** A rounded rectangle as path data; never of negative width. */
export function box(x: number, y: number, width: number, height: number, radius = 0): string {
  const r = Math.max(0, Math.min(radius, width / 2, height / 2));
  const [w, h] = [Math.max(0, width) - 2 * r, Math.max(0, height) - 2 * r];
  const corner = (dx: number, dy: number): string => (r ? `a${n(r)} ${n(r)} 0 0 1 ${n(dx)} ${n(dy)}` : '');
  return [
    `M${n(x + r)} ${n(y)}h${n(w)}${corner(r, r)}v${n(h)}${corner(-r, r)}`,
    `h${n(-w)}${corner(-r, -r)}v${n(-h)}${corner(r, -r)}z`,
  ].join('');
}

/** A disc centered at (x, y). */
export function disc(x: number, y: number, radius: number): string {
  const r = n(radius);
  return `M${n(x - radius)} ${n(y)}a${r} ${r} 0 1 0 ${n(2 * radius)} 0a${r} ${r} 0 1 0 ${n(-2 * radius)} 0z`;
}

/** A diamond centered at (x, y). */
export function diamond(x: number, y: number, r: number): string {
  return `M${n(x)} ${n(y - r)}l${n(r)} ${n(r)}l${n(-r)} ${n(r)}l${n(-r)} ${n(-r)}z`;
}

/** A straight line. */
export function line(x1: number, y1: number, x2: number, y2: number): string {
  return `M${n(x1)} ${n(y1)}L${n(x2)} ${n(y2)}`;
}

/** A smooth ribbon from the left edge (x1, y1, height h1) to the right edge (x2, y2, height h2). */
export function ribbon(x1: number, y1: number, h1: number, x2: number, y2: number, h2: number): string {
  const middle = n((x1 + x2) / 2);
  return [
    `M${n(x1)} ${n(y1)}C${middle} ${n(y1)} ${middle} ${n(y2)} ${n(x2)} ${n(y2)}v${n(h2)}`,
    `C${middle} ${n(y2 + h2)} ${middle} ${n(y1 + h1)} ${n(x1)} ${n(y1 + h1)}z`,
  ].join('');
}

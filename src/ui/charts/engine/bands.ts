import type { Layer } from '../plot.ts';
import type { Paint, Tone } from './paint.ts';

interface Step {
  x: number;
  low: number;
  high: number;
}

/** A band between two lines. */
export function bandLayers(steps: readonly Step[], paint: Paint, edge: Tone, width: number): Layer[] {
  const line = (end: 'low' | 'high') => steps.map((step) => ({ x: step.x, y: step[end] }));
  return [
    { kind: 'line', ink: edge, width, points: line('low') },
    { kind: 'line', ink: edge, width, points: line('high'), fill: { paint, to: 'before' } },
  ];
}

/** A level across the plot. */
export function levelLayer(
  y: number,
  [from, to]: readonly [number, number],
  ink: Tone,
  width: number,
  dash?: readonly number[],
): Layer {
  return { kind: 'line', ink, width, points: [{ x: from, y }, { x: to, y }], ...(dash ? { dash } : {}) };
} // prettier-ignore

/** An upright line through the plot. */
export function uprightLayer(
  x: number,
  [from, to]: readonly [number, number],
  ink: Tone,
  width: number,
  dash?: readonly number[],
): Layer {
  return { kind: 'line', ink, width, points: [{ x, y: from }, { x, y: to }], ...(dash ? { dash } : {}) };
} // prettier-ignore

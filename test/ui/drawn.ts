import type { ChartColors } from '../../src/ui/charts/drawing/colors.ts';
import type { Scene } from '../../src/ui/charts/drawing/scene.ts';

/** Every color is its own name, so that a test can see which one was used. */
export const COLORS = new Proxy({}, { get: (_, name) => String(name) }) as ChartColors;

/** The texts of a scene. */
export function printed(scene: Scene | undefined): string[] {
  return (scene?.marks ?? []).flatMap(({ shapes }) =>
    shapes.flatMap((shape) => (shape.kind === 'text' ? [shape.text] : [])),
  );
}

/** A scene as text, to search for NaN and undefined. */
export function textOf(scene: Scene | undefined): string {
  return JSON.stringify(scene, (_, value: unknown) => (typeof value === 'number' ? String(value) : value));
}

import type { ChartColours } from '../../src/ui/charts/drawing/colours.ts';
import type { Scene } from '../../src/ui/charts/drawing/scene.ts';

/** Every color is its own name, so that a test can see which one was used. */
export const COLOURS = new Proxy({}, { get: (_, name) => String(name) }) as ChartColours;

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

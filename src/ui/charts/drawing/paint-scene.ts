import { TILE, TILES } from './patterns.ts';
import type { PathShape, Scene, Shape } from './scene.ts';

/** Paints a scene at the pen's origin; `ratio` is the number of device pixels per unit of the scene. */
export function paintScene(pen: CanvasRenderingContext2D, scene: Scene, font: string, ratio: number): void {
  for (const shape of scene.marks.flatMap(({ shapes }) => shapes)) paintShape(pen, shape, font, ratio);
}

function paintShape(pen: CanvasRenderingContext2D, shape: Shape, font: string, ratio: number): void {
  pen.save();
  if (shape.kind === 'text') {
    pen.font = `${shape.weight ?? 400} ${shape.size}px ${font}`;
    pen.fillStyle = shape.fill;
    pen.textAlign = { start: 'left', middle: 'center', end: 'right' }[
      shape.anchor ?? 'start'
    ] as CanvasTextAlign;
    pen.textBaseline = 'alphabetic';
    pen.fillText(shape.text, shape.x, shape.y);
  } else paintPath(pen, shape, ratio);
  pen.restore();
}

function paintPath(pen: CanvasRenderingContext2D, shape: PathShape, ratio: number): void {
  const path = new Path2D(shape.d);
  pen.globalAlpha = shape.opacity ?? 1;
  if (shape.fill) {
    pen.fillStyle = shape.fill;
    pen.fill(path);
  }
  if (shape.pattern) {
    pen.fillStyle = patternOf(pen, shape.pattern, ratio);
    pen.fill(path);
  }
  if (shape.stroke) {
    pen.strokeStyle = shape.stroke;
    pen.lineWidth = shape.strokeWidth ?? 1;
    pen.setLineDash([...(shape.dash ?? [])]);
    pen.stroke(path);
  }
}

/** The pattern tile at the picture's resolution, so that its lines stay sharp. */
function patternOf(
  pen: CanvasRenderingContext2D,
  { kind, ink }: NonNullable<PathShape['pattern']>,
  ratio: number,
): CanvasPattern | string {
  const tile = document.createElement('canvas');
  tile.width = tile.height = TILE * ratio;
  const inner = tile.getContext('2d');
  if (!inner) throw new Error('No drawing surface');
  inner.scale(ratio, ratio);
  inner.strokeStyle = ink;
  inner.lineCap = 'round';
  inner.lineWidth = TILES[kind].width;
  inner.stroke(new Path2D(TILES[kind].d));
  const pattern = pen.createPattern(tile, 'repeat');
  pattern?.setTransform(new DOMMatrix().scale(1 / ratio));
  return pattern ?? ink;
}

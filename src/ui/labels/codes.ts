/** A ticket as bars and as a QR square, each drawn as one SVG path so that it prints sharp at any size. */
import { code128, qrcode, type DrawingContext, type RenderOptions } from 'bwip-js/generic';

/** A drawn code: the `d` of an SVG path in a box of `width` × `height`, counted in narrowest bars or in squares. */
export interface CodeShape {
  width: number;
  height: number;
  d: string;
  /** Empty bars or squares that a reader needs on each side (ISO/IEC 15417: 10; ISO/IEC 18004: 4; from memory). */
  quiet: number;
}

/** Code 128 of `text`, 1 high: it is stretched to the height wanted. @example barsOf('26-0147').width // 101 */
export function barsOf(text: string): CodeShape {
  return {
    ...code128({ bcid: 'code128', text, scale: 1, height: 1, includetext: false }, pen()),
    height: 1,
    quiet: 10,
  };
}

/**
 * QR of `text`, with the most error correction (level H): a tag gets frost and blood on it. A ticket still fits the
 * smallest symbol. @example squareOf('26-0147').width // 21
 */
export function squareOf(text: string): CodeShape {
  const options: QrOptions = { bcid: 'qrcode', text, scale: 1, eclevel: 'H' };
  return { ...qrcode(options, pen()), quiet: 4 };
}

/** The writer's types leave out what only one kind of code knows. */
interface QrOptions extends RenderOptions {
  eclevel: 'L' | 'M' | 'Q' | 'H';
}

/** Draws what the barcode writer says into a path; the writer's dots are turned back into bars or squares. */
function pen(): DrawingContext<Pick<CodeShape, 'width' | 'height' | 'd'>> {
  let dots = 1;
  let size = { width: 0, height: 0 };
  const path: string[] = [];
  const at = (x: number, y: number): string => `${x / dots} ${y / dots}`;
  return {
    scale(x) {
      dots = x;
      return [x, x];
    },
    init(width, height) {
      size = { width: width / dots, height: height / dots };
    },
    line(x, _y, _x2, _y2, wide) {
      // The writer names the middle of a bar, rounded up where that is half a dot.
      const left = x - Math.ceil(wide / 2);
      path.push(`M${at(left, 0)}h${wide / dots}v1h${-wide / dots}z`);
    },
    polygon(points) {
      path.push(`M${points.map(([x, y]) => at(x, y)).join('L')}z`);
    },
    end: () => ({ ...size, d: path.join('') }),
    fill: () => undefined,
    measure: () => ({ width: 0, ascent: 0, descent: 0 }),
    hexagon: refuse,
    ellipse: refuse,
    text: refuse,
  };
}

function refuse(): never {
  throw new Error('Bars and squares are all that is drawn here.');
}

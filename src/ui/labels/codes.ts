/** Renders a ticket as a barcode or QR code: one SVG path each, so that it prints sharp at any size. */
import { code128, qrcode, type DrawingContext, type RenderOptions } from 'bwip-js/generic';

/**
 * A rendered code: the `d` of an SVG path in a box of `width` × `height`, in units of the narrowest bar or module.
 */
export interface CodeShape {
  width: number;
  height: number;
  d: string;
  /** Width of the quiet zone on each side, in bars or modules (ISO/IEC 15417: 10; ISO/IEC 18004: 4; from memory). */
  quiet: number;
}

/**
 * Code 128 of `text`, of height 1; the caller scales it.
 * @example barsOf('26-0147').width // 101
 */
export function barsOf(text: string): CodeShape {
  return {
    ...code128({ bcid: 'code128', text, scale: 1, height: 1, includetext: false }, pen()),
    height: 1,
    quiet: 10,
  };
}

/**
 * QR code of `text` with the highest error correction (level H), because tags get frost and blood on them. A ticket
 * still fits the smallest symbol.
 * @example squareOf('26-0147').width // 21
 */
export function squareOf(text: string): CodeShape {
  const options: QrOptions = { bcid: 'qrcode', text, scale: 1, eclevel: 'H' };
  return { ...qrcode(options, pen()), quiet: 4 };
}

/** The library's types omit members that only one symbology has. */
interface QrOptions extends RenderOptions {
  eclevel: 'L' | 'M' | 'Q' | 'H';
}

/** Converts the library's drawing operations into a path, with its pixels scaled back to bars or modules. */
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
      // The library gives the center of a bar, rounded up to whole pixels.
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

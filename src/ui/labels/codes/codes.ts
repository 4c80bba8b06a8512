/** A ticket as a barcode or QR code: one SVG path each, so that it prints sharp at any size. */
import { widthsOf } from './code-128.ts';
import { modulesOf } from './qr.ts';

/** A code: the `d` of an SVG path in a box of `width` × `height`, in units of the narrowest bar or module. */
export interface CodeShape {
  width: number;
  height: number;
  d: string;
  /** Width of the quiet zone on each side, in bars or modules (ISO/IEC 15417: 10; ISO/IEC 18004: 4; from memory). */
  quiet: number;
}

/**
 * Code 128 of `text`, of height 1; the caller scales it.
 * @throws RangeError for other than printable ASCII
 * @example barsOf('26-0147').width // 101
 */
export function barsOf(text: string): CodeShape {
  const widths = widthsOf(text);
  let width = 0;
  const bars = widths.map((wide, at) => {
    const left = width;
    width += wide;
    return at % 2 === 0 ? bar(left, 0, wide) : '';
  });
  return { width, height: 1, d: bars.join(''), quiet: 10 };
}

/**
 * QR code of `text` with the highest error correction (level H), because tags get frost and blood on them. A ticket
 * fits the smallest symbol.
 * @throws RangeError for more than 50 characters, or other than digits, capitals and a few signs before a #
 * @example squareOf('26-0147').width // 21
 */
export function squareOf(text: string): CodeShape {
  const rows = modulesOf(text);
  const bars = rows.flatMap((row, y) => {
    const line = row.map(Number).join('');
    return [...line.matchAll(/1+/g)].map(({ 0: run, index }) => bar(index, y, run.length));
  });
  return { width: rows.length, height: rows.length, d: bars.join(''), quiet: 4 };
}

const bar = (x: number, y: number, wide: number): string => `M${x} ${y}h${wide}v1h${-wide}z`;

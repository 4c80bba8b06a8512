/** Our barcodes and QR codes, bar by bar and module by module beside those of an independent package. */
import bwip from 'bwip-js/node';
import {
  BinaryBitmap,
  DecodeHintType,
  HybridBinarizer,
  QRCodeReader,
  RGBLuminanceSource,
} from '@zxing/library';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { barsOf, squareOf } from '../../../src/ui/labels/codes/codes.ts';
import { widthsOf } from '../../../src/ui/labels/codes/code-128.ts';
import { modulesOf } from '../../../src/ui/labels/codes/qr.ts';

const MASKS = [1, 2, 3, 4, 5, 6, 7, 8];
const ALPHANUMERIC = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:';

function theirBars(text: string): number[] {
  const [code] = bwip.raw('code128', text, {});
  return code && 'sbs' in code ? [...code.sbs] : [];
}
/** The QR code as text, a line for each row, under each of the eight masks. Every choice of a mask is valid. */
function theirSquares(text: string): string[] {
  return MASKS.map((mask) => {
    const [code] = bwip.raw('qrcode', text, { eclevel: 'H', mask } as object);
    if (!code || !('pixs' in code)) throw new Error('The package made no QR code.');
    const { pixs, pixx } = code;
    return Array.from({ length: pixx }, (_, y) => [...pixs].slice(y * pixx, (y + 1) * pixx).join('')).join(
      '\n',
    );
  });
}
const ourSquare = (text: string): string =>
  modulesOf(text)
    .map((row) => row.map(Number).join(''))
    .join('\n');
/** What the reader of another package finds in a picture of the modules, with their quiet zone. */
function readSquare(rows: readonly boolean[][]): string {
  const [scale, quiet] = [4, 4];
  const edge = (rows.length + 2 * quiet) * scale;
  const at = (pixel: number): number => Math.floor(pixel / scale) - quiet;
  const light = Uint8ClampedArray.from({ length: edge * edge }, (_, i) =>
    rows[at(Math.floor(i / edge))]?.[at(i % edge)] ? 0 : 255,
  );
  const picture = new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(light, edge, edge)));
  return new QRCodeReader().decode(picture, new Map([[DecodeHintType.PURE_BARCODE, true]])).getText();
}
const tickets = fc
  .tuple(fc.constantFrom('26', '99', '1998', '2100'), fc.integer({ min: 1, max: 999_999 }))
  .map(([mark, number]) => `${mark}-${String(number).padStart(4, '0')}`);

describe('a barcode', () => {
  it('of a ticket has the very bars of the other package', () => {
    fc.assert(
      fc.property(tickets, (ticket) => {
        expect(widthsOf(ticket)).toEqual(theirBars(ticket));
      }),
    );
  });

  it('of any plain text is as short as theirs', () => {
    // The caret is an escape in their texts.
    fc.assert(
      fc.property(fc.stringMatching(/^[ -\]_-~]{1,24}$/), (text) => {
        expect(widthsOf(text)).toHaveLength(theirBars(text).length);
      }),
    );
  });

  it.each(['', 'Ä', 'a\nb'])('is refused for %j', (text) => {
    expect(() => barsOf(text)).toThrow(RangeError);
  });
});

describe('a QR code', () => {
  it('of a ticket has the very modules of the other package, under one of its eight masks', () => {
    fc.assert(
      fc.property(tickets, (ticket) => {
        expect(theirSquares(ticket)).toContain(ourSquare(ticket));
      }),
      { numRuns: 25 },
    );
  });

  it.each([1, 10, 11, 20, 21, 35, 36, 50])('of %d characters, too', (length) => {
    const text = Array.from({ length }, (_, at) => ALPHANUMERIC[(at * 17 + 10) % 45]).join('');
    expect(theirSquares(text)).toContain(ourSquare(text));
  });

  it.each([
    'HTTPS://10.0.0.7:47115/#p=BCDFGHJK',
    'HTTPS://192.168.100.200:65535/#p=ZXWVTSRQ',
    '#small letters',
  ])('of %s is read by a reader of another package', (text) => {
    expect(readSquare(modulesOf(text))).toBe(text);
  });

  it.each(['26-0147'.repeat(8), 'small', 'Ä', 'HTTP://A/#Ä'])('is refused for %j', (text) => {
    expect(() => squareOf(text)).toThrow(RangeError);
  });
});

/**
 * Our own reader of codes, for browsers that have none. Fetched when a camera is opened. Only the parts of the library for our
 * two kinds of code: as a whole it is ten times as large.
 */
import BinaryBitmap from '@zxing/library/esnext/core/BinaryBitmap.js';
import HybridBinarizer from '@zxing/library/esnext/core/common/HybridBinarizer.js';
import Exception from '@zxing/library/esnext/core/Exception.js';
import Code128Reader from '@zxing/library/esnext/core/oned/Code128Reader.js';
import QRCodeReader from '@zxing/library/esnext/core/qrcode/QRCodeReader.js';
import RGBLuminanceSource from '@zxing/library/esnext/core/RGBLuminanceSource.js';

const readers = [new Code128Reader(), new QRCodeReader()];

/** The text of the code in a picture; null for none. */
export function readCode({ data, width, height }: ImageData): string | null {
  const source = new RGBLuminanceSource(brightness(data), width, height);
  const bitmap = new BinaryBitmap(new HybridBinarizer(source));
  for (const reader of readers) {
    try {
      return reader.decode(bitmap).getText();
    } catch (error) {
      // No code, half of one, or one whose check does not agree: the next frame may show it.
      if (!(error instanceof Exception)) throw error;
    }
  }
  return null;
}

/** Of each pixel, by the weights of ITU-R BT.601 for red, green and blue. */
function brightness(rgba: Uint8ClampedArray): Uint8ClampedArray {
  const bright = new Uint8ClampedArray(rgba.length / 4);
  for (let at = 0; at < bright.length; at += 1) {
    const red = 4 * at;
    bright[at] = 0.299 * (rgba[red] ?? 0) + 0.587 * (rgba[red + 1] ?? 0) + 0.114 * (rgba[red + 2] ?? 0);
  }
  return bright;
}

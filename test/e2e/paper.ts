/** The printed output: the pages of a PDF with sizes, text and images, and the codes that a reader finds on them. */
import { BarcodeFormat, BinaryBitmap, DecodeHintType, HybridBinarizer, MultiFormatReader, RGBLuminanceSource } from '@zxing/library'; // prettier-ignore
import type { PDFDocumentProxy, PDFPageProxy } from 'pdfjs-dist';
import { PNG } from 'pngjs';
import type { Page } from 'playwright-core';

/** Points (1/72 in) in a millimeter. */
export const PT_PER_MM = 72 / 25.4;
/** Dots per millimeter of the images: 203 dpi, the coarsest label printers. */
const DOTS_PER_MM = 8;

export interface Sheet {
  /** In points, as in the PDF. */
  width: number;
  height: number;
  words: string;
  /** Rendered on demand. */
  picture(): Promise<Picture>;
}
export interface Picture {
  width: number;
  height: number;
  /** Four bytes per pixel: red, green, blue, opacity. */
  data: Uint8ClampedArray;
}
/** A part of an image, in millimeters from its left and top. */
export interface Piece {
  left: number;
  top: number;
  width: number;
  height: number;
}

/** Prints the page to a PDF and opens it page by page. `format` is the printer's paper, if the page sets none. */
export async function printed(page: Page, format: 'A4' | 'Letter' = 'Letter'): Promise<Sheet[]> {
  // Loaded lazily: outside a browser it looks for a canvas as soon as it is imported.
  const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const pdf = await page.pdf({ preferCSSPageSize: true, format });
  const document = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
  const numbers = Array.from({ length: document.numPages }, (_, i) => i + 1);
  return Promise.all(numbers.map(async (number) => sheetOf(document, await document.getPage(number))));
}

async function sheetOf(document: PDFDocumentProxy, sheet: PDFPageProxy): Promise<Sheet> {
  const [left = 0, bottom = 0, right = 0, top = 0] = sheet.view;
  const { items } = await sheet.getTextContent();
  return {
    width: right - left,
    height: top - bottom,
    words: items.map((item) => ('str' in item ? item.str : '')).join(' ').replace(/\s+/g, ' '),
    async picture() {
      const viewport = sheet.getViewport({ scale: DOTS_PER_MM / PT_PER_MM });
      const factory = document.canvasFactory as CanvasFactory;
      const { canvas, context } = factory.create(Math.round(viewport.width), Math.round(viewport.height));
      await sheet.render({ canvas, canvasContext: context, viewport, background: '#fff' }).promise;
      return context.getImageData(0, 0, canvas.width, canvas.height);
    },
  }; // prettier-ignore
}

/** The canvas that the renderer uses outside a browser; its types omit it. */
interface CanvasFactory {
  create(width: number, height: number): { canvas: HTMLCanvasElement; context: CanvasRenderingContext2D };
}

/** An image as a PNG file. */
export function pngOf({ width, height, data }: Picture): Buffer {
  const png = new PNG({ width, height });
  png.data.set(data);
  return PNG.sync.write(png);
}

/** Rotates by 90° counterclockwise: labels on a roll are printed along its length. */
export function turnedBack({ width, height, data }: Picture): Picture {
  const turned = new Uint8ClampedArray(data.length);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const from = (y * width + x) * 4;
      turned.set(data.subarray(from, from + 4), ((width - 1 - x) * height + y) * 4);
    }
  return { width: height, height: width, data: turned };
}

/** Gray values of a part of an image, row by row, clipped to the paper. */
function greys(picture: Picture, piece: Piece): { width: number; height: number; grey: Uint8ClampedArray } {
  const dots = (mm: number, most: number): number =>
    Math.min(most, Math.max(0, Math.round(mm * DOTS_PER_MM)));
  const left = dots(piece.left, picture.width);
  const top = dots(piece.top, picture.height);
  const width = dots(piece.left + piece.width, picture.width) - left;
  const height = dots(piece.top + piece.height, picture.height) - top;
  const grey = new Uint8ClampedArray(width * height);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++)
      grey[y * width + x] = picture.data[((y + top) * picture.width + x + left) * 4] ?? 0;
  return { width, height, grey };
}

/** The inked fraction of a part of an image, 0 to 1. */
export function inked(picture: Picture, piece: Piece): number {
  const { grey } = greys(picture, piece);
  return grey.length === 0 ? 0 : grey.filter((value) => value < 128).length / grey.length;
}

/** Height in millimeters from the topmost to the lowest printed dot. */
export function inkHeight(picture: Picture, piece: Piece): number {
  const { width, height, grey } = greys(picture, piece);
  const rows = Array.from({ length: height }, (_, y) => y).filter((y) =>
    grey.subarray(y * width, (y + 1) * width).some((value) => value < 128),
  );
  return rows.length === 0 ? 0 : ((rows.at(-1) ?? 0) - (rows[0] ?? 0) + 1) / DOTS_PER_MM;
}

/** Decodes the barcode or QR code in a part of an image with another vendor's reader. @throws if it finds none */
export function readCode(picture: Picture, piece: Piece, kind: 'bars' | 'square'): string {
  const { width, height, grey } = greys(picture, piece);
  const format = kind === 'bars' ? BarcodeFormat.CODE_128 : BarcodeFormat.QR_CODE;
  const hints = new Map<DecodeHintType, unknown>([[DecodeHintType.POSSIBLE_FORMATS, [format]], [DecodeHintType.TRY_HARDER, true]]); // prettier-ignore
  const bitmap = new BinaryBitmap(new HybridBinarizer(new RGBLuminanceSource(grey, width, height)));
  return new MultiFormatReader().decode(bitmap, hints).getText();
}

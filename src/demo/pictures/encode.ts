/** Writes a drawing as a baseline JPEG file (ITU-T T.81, annexes A, B and F): small, plain, without subsampling. */

/** A drawing, 8 bits a color, row by row. Sides are multiples of 8. */
export interface Drawing {
  width: number;
  height: number;
  /** Red, green and blue of each pixel. */
  rgb: Uint8ClampedArray;
}

const BLOCK = 8;
/** The example table for luminance (T.81, K.1), here for all three components. */
const QUANTIZATION = [
  16, 11, 10, 16, 24, 40, 51, 61, 12, 12, 14, 19, 26, 58, 60, 55, 14, 13, 16, 24, 40, 57, 69, 56, 14, 17, 22, 29, 51, 87, 80, 62, 18,
  22, 37, 56, 68, 109, 103, 77, 24, 35, 55, 64, 81, 104, 113, 92, 49, 64, 78, 87, 103, 121, 120, 101, 72, 92, 95, 98, 112, 100, 103, 99,
]; // prettier-ignore
/** Order of the coefficients (T.81, figure A.6). */
const ZIGZAG = [
  0, 1, 8, 16, 9, 2, 3, 10, 17, 24, 32, 25, 18, 11, 4, 5, 12, 19, 26, 33, 40, 48, 41, 34, 27, 20, 13, 6, 7, 14, 21, 28, 35, 42, 49, 56,
  57, 50, 43, 36, 29, 22, 15, 23, 30, 37, 44, 51, 58, 59, 52, 45, 38, 31, 39, 46, 53, 60, 61, 54, 47, 55, 62, 63,
]; // prettier-ignore
const MAX_AC_SIZE = 10;
const RUN_OF_16 = 0xf0;
const END_OF_BLOCK = 0x00;
/** Codes of one length each, instead of the shorter ones of annex K: 4 bits for the 12 sizes of DC, 8 for AC. */
const DC_SYMBOLS = Array.from({ length: 12 }, (_, size) => size);
const AC_SYMBOLS = [
  END_OF_BLOCK,
  RUN_OF_16,
  ...Array.from(
    { length: 16 * MAX_AC_SIZE },
    (_, i) => (Math.floor(i / MAX_AC_SIZE) << 4) | ((i % MAX_AC_SIZE) + 1),
  ),
];
const AC_CODES = new Map(AC_SYMBOLS.map((symbol, code) => [symbol, code]));
const codeOf = (symbol: number): number => AC_CODES.get(symbol) ?? 0;
const COSINES = Array.from({ length: BLOCK * BLOCK }, (_, i) => {
  const [u, x] = [Math.floor(i / BLOCK), i % BLOCK];
  return Math.cos(((2 * x + 1) * u * Math.PI) / 16) * (u === 0 ? Math.SQRT1_2 : 1) * 0.5;
});

export function encodeJpeg(drawing: Drawing): Uint8Array<ArrayBuffer> {
  const bytes: number[] = [0xff, 0xd8];
  const segment = (marker: number, body: readonly number[]) =>
    bytes.push(0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 0xff, ...body);
  const lengths = (count: number, of: number) =>
    Array.from({ length: 16 }, (_, i) => (i === of - 1 ? count : 0));
  const { width, height } = drawing;
  segment(0xdb, [0, ...ZIGZAG.map((at) => QUANTIZATION[at] ?? 0)]);
  segment(0xc0, [
    8,
    height >> 8,
    height & 0xff,
    width >> 8,
    width & 0xff,
    3,
    1,
    0x11,
    0,
    2,
    0x11,
    0,
    3,
    0x11,
    0,
  ]);
  segment(0xc4, [0x00, ...lengths(DC_SYMBOLS.length, 4), ...DC_SYMBOLS]);
  segment(0xc4, [0x10, ...lengths(AC_SYMBOLS.length, 8), ...AC_SYMBOLS]);
  segment(0xda, [3, 1, 0, 2, 0, 3, 0, 0, 63, 0]);
  const bits = bitWriter(bytes);
  const last = [0, 0, 0];
  for (let y = 0; y < height; y += BLOCK)
    for (let x = 0; x < width; x += BLOCK)
      componentsAt(drawing, x, y).forEach((samples, i) => {
        last[i] = writeBlock(bits, transformed(samples), last[i] ?? 0);
      });
  bits.end();
  bytes.push(0xff, 0xd9);
  return Uint8Array.from(bytes);
}

/** Luminance and both color differences of one block (JFIF), around 0. */
function componentsAt({ rgb, width }: Drawing, x: number, y: number): Float64Array[] {
  const [luma, blue, red] = [new Float64Array(64), new Float64Array(64), new Float64Array(64)];
  for (let i = 0; i < BLOCK * BLOCK; i += 1) {
    const at = ((y + (i >> 3)) * width + x + (i & 7)) * 3;
    const [r, g, b] = [rgb[at] ?? 0, rgb[at + 1] ?? 0, rgb[at + 2] ?? 0];
    luma[i] = 0.299 * r + 0.587 * g + 0.114 * b - 128;
    blue[i] = -0.1687 * r - 0.3313 * g + 0.5 * b;
    red[i] = 0.5 * r - 0.4187 * g - 0.0813 * b;
  }
  return [luma, blue, red];
}

/** The quantized coefficients of a block in zigzag order (discrete cosine transform, A.3.3). */
function transformed(samples: Float64Array): number[] {
  const whole = turnedTransform(turnedTransform(samples));
  return ZIGZAG.map((at) => Math.round((whole[at] ?? 0) / (QUANTIZATION[at] ?? 1)));
}

/** Transforms each row, and turns rows into columns: twice, it transforms both and turns back. */
function turnedTransform(rows: Float64Array): Float64Array {
  const made = new Float64Array(BLOCK * BLOCK);
  for (let row = 0; row < BLOCK; row += 1)
    for (let u = 0; u < BLOCK; u += 1) {
      let sum = 0;
      for (let x = 0; x < BLOCK; x += 1) sum += (rows[row * BLOCK + x] ?? 0) * (COSINES[u * BLOCK + x] ?? 0);
      made[u * BLOCK + row] = sum;
    }
  return made;
}

/** @returns the block's DC, from which the next one counts */
function writeBlock(bits: BitWriter, [dc = 0, ...ac]: readonly number[], before: number): number {
  writeValue(bits, dc - before, (size) => bits.put(size, 4));
  let zeros = 0;
  for (const value of ac) {
    if (value === 0) {
      zeros += 1;
      continue;
    }
    for (; zeros > 15; zeros -= 16) bits.put(codeOf(RUN_OF_16), 8);
    const run = zeros;
    writeValue(bits, value, (size) => bits.put(codeOf((run << 4) | size), 8));
    zeros = 0;
  }
  if (zeros > 0) bits.put(codeOf(END_OF_BLOCK), 8);
  return dc;
}

/** The size of a value as a symbol, and the value in so many bits (F.1.2.1). */
function writeValue(bits: BitWriter, value: number, symbol: (size: number) => void): void {
  const size = Math.abs(value).toString(2).length * Number(value !== 0);
  symbol(size);
  bits.put(value < 0 ? value + 2 ** size - 1 : value, size);
}

interface BitWriter {
  put(value: number, length: number): void;
  /** Fills the last byte with ones. */
  end(): void;
}

function bitWriter(bytes: number[]): BitWriter {
  let [held, count] = [0, 0];
  const put = (value: number, length: number): void => {
    for (let i = length - 1; i >= 0; i -= 1) {
      held = (held << 1) | ((value >> i) & 1);
      count += 1;
      if (count < 8) continue;
      bytes.push(held);
      // A byte of ones would be taken for a marker.
      if (held === 0xff) bytes.push(0);
      [held, count] = [0, 0];
    }
  };
  return { put, end: () => put(0xff, count === 0 ? 0 : 8 - count) };
}

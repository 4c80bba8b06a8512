/** The words (bytes) of a QR code: the text in its alphanumeric mode (from a # on in bytes), with Reed–Solomon error correction. */

/** How the words of a version are divided. */
export interface QrSize {
  /** Modules per side. */
  modules: number;
  blocks: number;
  /** Words of a block that carry data, and that repair it. */
  data: number;
  repair: number;
}

const CHARACTERS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:';
/** Modes: alphanumeric, bytes. */
const SIGNS = 0b0010;
const BYTES = 0b0100;
const FILL = [0xec, 0x11];

/** All words in the order in which they are drawn; null if the text does not fit. */
export function wordsOf(text: string, { blocks, data, repair }: QrSize): number[] | null {
  const all = dataWords(text, blocks * data);
  if (!all) return null;
  const parts = Array.from({ length: blocks }, (_, at) => all.slice(at * data, (at + 1) * data));
  return [...inTurn(parts), ...inTurn(parts.map((part) => repairWords(part, repair)))];
}

/** The first of each, then the second of each, and so on. */
function inTurn(parts: readonly number[][]): number[] {
  return (parts[0] ?? []).flatMap((_, at) => parts.map((part) => part[at] ?? 0));
}

function dataWords(text: string, room: number): number[] | null {
  // What stands after # in an address has small letters: it is written in bytes.
  const hash = text.indexOf('#');
  let bits = hash < 0 ? signBits(text) : signBits(text.slice(0, hash)) + byteBits(text.slice(hash));
  if (bits.length > room * 8) return null;
  bits = bits.padEnd(Math.min(bits.length + 4, room * 8), '0');
  bits = bits.padEnd(Math.ceil(bits.length / 8) * 8, '0');
  const words = (bits.match(/.{8}/g) ?? []).map((word) => Number.parseInt(word, 2));
  return [...words, ...Array.from({ length: room - words.length }, (_, at) => FILL[at % 2] ?? 0)];
}

function signBits(text: string): string {
  const digits = [...text].map((character) => CHARACTERS.indexOf(character));
  if (digits.includes(-1))
    throw new RangeError('Only digits, capitals and a few signs become a QR code here.');
  let bits = bitsOf(SIGNS, 4) + bitsOf(digits.length, 9);
  for (let at = 0; at < digits.length; at += 2) {
    const [high = 0, low] = digits.slice(at, at + 2);
    bits += low === undefined ? bitsOf(high, 6) : bitsOf(high * CHARACTERS.length + low, 11);
  }
  return bits;
}

function byteBits(text: string): string {
  if (!/^[ -~]+$/.test(text)) throw new RangeError('Only printable ASCII becomes a QR code here.');
  const bytes = [...text].map((character) => bitsOf(character.charCodeAt(0), 8));
  return bitsOf(BYTES, 4) + bitsOf(bytes.length, 8) + bytes.join('');
}

const bitsOf = (value: number, length: number): string => value.toString(2).padStart(length, '0');

/** The remainder of the data, as a polynomial over GF(256), by the generator of `count` roots. */
function repairWords(data: readonly number[], count: number): number[] {
  const generator = [1];
  let root = 1;
  for (let at = 0; at < count; at++) {
    generator.push(0);
    for (let i = at + 1; i > 0; i--)
      generator[i] = (generator[i] ?? 0) ^ product(generator[i - 1] ?? 0, root);
    root = product(root, 2);
  }
  const rest = Array<number>(count).fill(0);
  for (const word of data) {
    const factor = word ^ (rest.shift() ?? 0);
    rest.push(0);
    for (let i = 0; i < count; i++) rest[i] = (rest[i] ?? 0) ^ product(generator[i + 1] ?? 0, factor);
  }
  return rest;
}

/** The product in GF(256) with the polynomial x⁸ + x⁴ + x³ + x² + 1. */
function product(a: number, b: number): number {
  let result = 0;
  for (let bit = 7; bit >= 0; bit--) {
    result = (result << 1) ^ ((result >>> 7) * 0x11d);
    if ((b >>> bit) & 1) result ^= a;
  }
  return result;
}

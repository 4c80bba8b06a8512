/** JPEG files, ITU-T T.81 (1992): of a photograph only the picture is kept. */
import { MAX_PHOTO_BYTES, MAX_PHOTO_SIDE } from '../../trade/photo.ts';
import { ValidationError } from '../values/validation-error.ts';

/** Markers of T.81, table B.1. */
const SOI = 0xd8;
const EOI = 0xd9;
const SOS = 0xda;
const DQT = 0xdb;
const DHT = 0xc4;
const DRI = 0xdd;
/** Baseline, extended sequential and progressive Huffman coding: what browsers write and show. */
const FRAMES: readonly number[] = [0xc0, 0xc1, 0xc2];
/** Application data (EXIF, with place and camera, is APP1) and comments. */
const isBeside = (marker: number): boolean => (marker >= 0xe0 && marker <= 0xef) || marker === 0xfe;
const isRestart = (marker: number): boolean => marker >= 0xd0 && marker <= 0xd7;
/** A progressive picture has about ten; hundreds only keep a viewer busy. Our choice, no source. */
const MAX_SCANS = 32;

export interface Picture {
  bytes: Uint8Array<ArrayBuffer>;
  /** Pixels. */
  width: number;
  height: number;
}

/**
 * The picture of a JPEG file, as a JPEG file of its own: tables, frame and scans as they are. Application data (place, camera,
 * thumbnail, color profile), comments and whatever follows the end are left out. The same bytes come back for what is a picture
 * alone. Nothing is decoded.
 * @throws ValidationError `photo.no-picture` for anything else, `photo.too-large` beyond 1600 pixels a side or 500,000 bytes
 */
export function pictureOnly(file: Uint8Array): Picture {
  const parts: Uint8Array[] = [file.subarray(0, 2)];
  let frame: { width: number; height: number } | null = null;
  let scans = 0;
  const seen = new Set<number>();
  if (file[0] !== 0xff || file[1] !== SOI) throw noPicture();
  for (let at = 2; ;) {
    const { marker, from } = markerAt(file, at);
    if (marker === EOI) {
      parts.push(file.subarray(from - 2, from));
      break;
    }
    const end = from + lengthAt(file, from);
    const segment = file.subarray(from - 2, end);
    at = marker === SOS ? endOfScan(file, end) : end;
    if (isBeside(marker)) continue;
    if (FRAMES.includes(marker)) {
      if (frame) throw noPicture();
      frame = frameOf(segment);
    } else if (marker === SOS) {
      if (!frame || !seen.has(DQT) || !seen.has(DHT) || ++scans > MAX_SCANS) throw noPicture();
    } else if (marker !== DQT && marker !== DHT && marker !== DRI) throw noPicture();
    seen.add(marker);
    parts.push(file.subarray(from - 2, at));
  }
  if (!frame || scans === 0) throw noPicture();
  const bytes = joined(parts);
  if (frame.width > MAX_PHOTO_SIDE || frame.height > MAX_PHOTO_SIDE || bytes.length > MAX_PHOTO_BYTES)
    throw new ValidationError('photo.too-large', undefined, { side: MAX_PHOTO_SIDE, bytes: MAX_PHOTO_BYTES });
  return { bytes, ...frame };
}

/** The marker at a place, after any fill bytes (B.1.1.2), and where its segment goes on. */
function markerAt(file: Uint8Array, at: number): { marker: number; from: number } {
  if (file[at] !== 0xff) throw noPicture();
  let code = at + 1;
  while (file[code] === 0xff) code += 1;
  const marker = file[code];
  if (marker === undefined || marker === 0) throw noPicture();
  return { marker, from: code + 1 };
}

/** The length of a segment, which counts itself (B.1.1.4). */
function lengthAt(file: Uint8Array, at: number): number {
  const length = ((file[at] ?? 0) << 8) | (file[at + 1] ?? 0);
  if (length < 2 || at + length > file.length) throw noPicture();
  return length;
}

/** Where the coded data of a scan end: at the next marker that is no restart (B.1.1.5). */
function endOfScan(file: Uint8Array, from: number): number {
  for (let at = file.indexOf(0xff, from); at >= 0; at = file.indexOf(0xff, at + 1)) {
    const next = file[at + 1];
    if (next === undefined) break;
    if (next !== 0 && next !== 0xff && !isRestart(next)) return at;
  }
  throw noPicture();
}

/** The size in a frame header (B.2.2): 8 bits, gray or three colors. */
function frameOf(segment: Uint8Array): { width: number; height: number } {
  const [, , , length, precision, h1 = 0, h0 = 0, w1 = 0, w0 = 0, components = 0] = segment;
  const [width, height] = [(w1 << 8) | w0, (h1 << 8) | h0];
  if (precision !== 8 || ![1, 3].includes(components) || length !== 8 + 3 * components) throw noPicture();
  if (width === 0 || height === 0) throw noPicture();
  return { width, height };
}

function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

const noPicture = (): ValidationError => new ValidationError('photo.no-picture');

/** Small photographs for tests. */
import { encodeJpeg } from '../src/demo/pictures/encode.ts';
import type { FreshDesk } from './desk/fresh-desk.ts';

/** A plain picture: another number, another picture. Sides are multiples of 8. */
export function photoOf(seed = 1, width = 32, height = 16): Uint8Array<ArrayBuffer> {
  const rgb = new Uint8ClampedArray(width * height * 3).map(
    (_, i) => (i * (7 + Math.floor(seed / 251)) + seed * 31) % 251,
  );
  return encodeJpeg({ width, height, rgb });
}

/** An EXIF segment (APP1) with a place and an orientation, as a camera writes it. */
export function exifWithPlace(): Uint8Array {
  const entry = (tag: number, type: number, count: number, value: readonly number[]) => [
    tag >> 8,
    tag & 0xff,
    0,
    type,
    0,
    0,
    0,
    count,
    ...value,
  ];
  const tiff = [
    0x4d, 0x4d, 0, 42, 0, 0, 0, 8,
    0, 2, ...entry(0x0112, 3, 1, [0, 6, 0, 0]), ...entry(0x8825, 4, 1, [0, 0, 0, 38]), 0, 0, 0, 0,
    0, 1, ...entry(1, 2, 2, [0x4e, 0, 0, 0]), 0, 0, 0, 0, // GPSLatitudeRef N
  ]; // prettier-ignore
  const body = [...Buffer.from('Exif\0\0', 'latin1'), ...tiff];
  return Uint8Array.from([0xff, 0xe1, (body.length + 2) >> 8, (body.length + 2) & 0xff, ...body]);
}

/** The photograph with a segment behind its first marker, where a camera writes one. */
export function withSegment(photo: Uint8Array, segment: Uint8Array): Uint8Array<ArrayBuffer> {
  return Uint8Array.from([...photo.subarray(0, 2), ...segment, ...photo.subarray(2)]);
}

export const base64Of = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64');

let made = 100;
/** Stores a new picture at the desk. @returns its digest */
export async function storedPhoto(shop: Pick<FreshDesk, 'call'>, seed = (made += 1)): Promise<string> {
  return (await shop.call('photos.store', { base64: base64Of(photoOf(seed)) })).digest;
}

/** Adds a new picture to an animal. */
export async function addPhoto(
  shop: Pick<FreshDesk, 'call'>,
  animalId: number,
  kind: 'tag' | 'animal' | 'damage' | 'result' = 'tag',
): Promise<{ id: number; digest: string }> {
  const digest = await storedPhoto(shop);
  return { ...(await shop.call('photos.add', { animalId, kind, digest })), digest };
}

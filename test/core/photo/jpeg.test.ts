/** What is kept of a JPEG file. Markers and segments as in ITU-T T.81, tables B.1 and B.2. */
import { describe, expect, it } from 'vitest';
import { pictureOnly } from '../../../src/core/photo/jpeg.ts';
import { MAX_PHOTO_BYTES } from '../../../src/trade/photo.ts';
import { exifWithPlace, photoOf, withSegment } from '../../photo-of.ts';

const photo = photoOf();
const text = (words: string) => [...Buffer.from(words, 'latin1')];
const segment = (marker: number, body: readonly number[]) =>
  Uint8Array.from([0xff, marker, (body.length + 2) >> 8, (body.length + 2) & 0xff, ...body]);
const same = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex');
const JFIF = segment(0xe0, [...text('JFIF\0'), 1, 1, 0, 0, 1, 0, 1, 0, 0]);

it('keeps a picture alone as it is, with its size', () => {
  const kept = pictureOnly(photo);
  expect([kept.width, kept.height]).toEqual([32, 16]);
  expect(same(kept.bytes)).toBe(same(photo));
});

describe('leaves out', () => {
  it.each<[string, Uint8Array]>([
    ['the place and the camera (EXIF)', exifWithPlace()],
    ['a thumbnail and density (JFIF)', JFIF],
    ['a color profile', segment(0xe2, text('ICC_PROFILE\0'))],
    ['a comment', segment(0xfe, text('<script>alert(1)</script>'))],
    ['what a camera adds', segment(0xef, text('maker'))],
    ['fill bytes', Uint8Array.from([0xff, 0xff])],
  ])('%s', (_what, more) => {
    const from = more[1] === 0xff ? Uint8Array.from([...photo.subarray(0, 2), 0xff, 0xff, ...photo.subarray(2)]) : withSegment(photo, more);
    expect(same(pictureOnly(from).bytes)).toBe(same(photo));
  }); // prettier-ignore

  it('what follows the end: an archive, a page, another picture', () => {
    for (const tail of [text('PK\x03\x04'), text('<!doctype html>'), [...photo]])
      expect(same(pictureOnly(Uint8Array.from([...photo, ...tail])).bytes)).toBe(same(photo));
  });

  it('all of it at once, in any order', () => {
    const full = withSegment(withSegment(photo, exifWithPlace()), JFIF);
    const { bytes } = pictureOnly(full);
    expect(same(bytes)).toBe(same(photo));
    expect(Buffer.from(bytes).includes('Exif')).toBe(false);
  });
});

describe('takes for no picture', () => {
  const changed = (at: number, value: number) =>
    Uint8Array.from(photo, (byte, i) => (i === at ? value : byte));
  const frame = Buffer.from(photo).indexOf(Buffer.from([0xff, 0xc0]));
  const scan = Buffer.from(photo).indexOf(Buffer.from([0xff, 0xda]));
  it.each<[string, Uint8Array]>([
    ['nothing', new Uint8Array()],
    ['text', Uint8Array.from(text('not a picture'))],
    ['a page', Uint8Array.from(text('<html><script>alert(1)</script></html>'))],
    ['another kind of picture', Uint8Array.from([0x89, ...text('PNG\r\n\x1a\n')])],
    ['a drawing with scripts', Uint8Array.from(text('<svg xmlns="http://www.w3.org/2000/svg"/>'))],
    ['a beginning alone', photo.subarray(0, 2)],
    ['a beginning and an end', Uint8Array.from([0xff, 0xd8, 0xff, 0xd9])],
    ['one that breaks off', photo.subarray(0, photo.length - 2)],
    ['one that breaks off in a table', photo.subarray(0, 20)],
    ['one without its scan', Uint8Array.from([...photo.subarray(0, scan), 0xff, 0xd9])],
    ['one without its frame', Uint8Array.from([...photo.subarray(0, frame), ...photo.subarray(frame + 19)])],
    ['one of no width', changed(frame + 8, 0)],
    ['one of twelve bits', changed(frame + 4, 12)],
    ['one of four inks', changed(frame + 9, 4)],
    ['one coded without loss', changed(frame + 1, 0xc3)],
    ['one with a marker of no meaning', changed(frame + 1, 0xf0)],
    ['a second frame', withSegment(photo, photo.subarray(frame, frame + 19))],
    ['a hundred scans', Uint8Array.from([...photo.subarray(0, -2), ...Array.from({ length: 100 }, () => [...photo.subarray(scan, -2)]).flat(), 0xff, 0xd9])],
  ])('%s', (_what, file) => {
    expect(() => pictureOnly(file)).toThrow('photo.no-picture');
  }); // prettier-ignore
});

it('refuses a picture larger than any screen shows, by its sides or its bytes', () => {
  expect(() => pictureOnly(photoOf(1, 1608, 8))).toThrow('photo.too-large');
  expect(pictureOnly(photoOf(1, 1600, 8)).width).toBe(1600);
  const dri = segment(0xdd, [0, 0]);
  const parts = Array.from({ length: Math.ceil(MAX_PHOTO_BYTES / dri.length) }, () => [...dri]).flat();
  expect(() => pictureOnly(withSegment(photo, Uint8Array.from(parts)))).toThrow('photo.too-large');
});

it('ends in linear time on what never ends', () => {
  const begun = performance.now();
  const endless = Uint8Array.from([...photo.subarray(0, -2), ...new Array<number>(2_000_000).fill(0xff)]);
  expect(() => pictureOnly(endless)).toThrow('photo.no-picture');
  expect(performance.now() - begun).toBeLessThan(2_000);
});

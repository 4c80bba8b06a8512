/** Photographs at the desk: stored, added, seen by place, voided; and what is not taken for one. */
import { existsSync, readdirSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { digestOf, photoFolder, photoPath, photosIn } from '../../../src/book/file/photos/files.ts';
import { tidyPhotos } from '../../../src/desk/session/photo-keeping.ts';
import type { Place } from '../../../src/trade/place.ts';
import { addPhoto, base64Of, exifWithPlace, photoOf, storedPhoto, withSegment } from '../../photo-of.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const DAY_MS = 24 * 60 * 60_000;
let shop: FreshDesk;
let animalId: number;
let folder: string;
beforeEach(async () => {
  shop = await freshDesk();
  animalId = await takeIn(shop);
  folder = photoFolder(shop.bookPath);
});
afterEach(() => shop.desk.close());

const list = () => shop.call('photos.list', { animalId });
const missing = async () => (await shop.call('shop.listBackups', { folder: '' })).missingPhotos;
const bookOf = () => {
  const session = shop.desk.session();
  if (!session) throw new Error('no book');
  return session.book;
};

describe('a photograph', () => {
  it('is a file named by its digest, private, and a row of its animal', async () => {
    const photo = photoOf();
    const digest = digestOf(photo);
    expect(await shop.call('photos.store', { digest, base64: base64Of(photo) })).toEqual({
      digest,
      bytes: photo.length,
    });
    expect(await list()).toEqual([]);
    const { id } = await shop.call('photos.add', { animalId, kind: 'damage', digest, by: 'MK' });
    expect(await list()).toEqual([
      expect.objectContaining({ id, kind: 'damage', digest, width: 32, height: 16, by: 'MK', station: null }),
    ]);
    const path = join(folder, digest.slice(0, 2), `${digest.slice(2)}.jpg`);
    expect(readFileSync(path).equals(photo)).toBe(true);
    const { base64 } = await shop.call('photos.read', { digest });
    expect(base64).toBe(base64Of(photo));
  });

  it('stored twice is one file; added twice to an animal it is refused, to another it is not', async () => {
    const digest = await storedPhoto(shop, 1);
    expect(await storedPhoto(shop, 1)).toBe(digest);
    await shop.call('photos.add', { animalId, kind: 'tag', digest });
    expect(await shop.problem('photos.add', { animalId, kind: 'damage', digest })).toMatchObject({
      code: 'photo.twice',
    });
    await shop.call('photos.add', { animalId: await takeIn(shop), kind: 'tag', digest });
    expect(photosIn(folder).size).toBe(1);
  });

  it('keeps the moment at which it was taken, and none of the future', async () => {
    const at = async (takenAt: string) =>
      shop.call('photos.add', { animalId, kind: 'animal', digest: await storedPhoto(shop), takenAt });
    await at('2026-10-10T14:00:00Z');
    await at('2031-01-01T00:00:00Z');
    expect((await list()).map(({ takenAt }) => takenAt)).toEqual([
      '2026-10-10T14:00:00.000Z',
      '2026-10-10T15:00:00.000Z',
    ]);
  });

  it('is voided for a reason and comes back by undo, in the history of its animal', async () => {
    const { id, digest } = await addPhoto(shop, animalId, 'damage');
    shop.wait(60);
    await shop.call('photos.void', { id, reason: 'of another animal', by: 'MK' });
    expect(await list()).toEqual([]);
    expect(await shop.problem('photos.read', { digest })).toMatchObject({ code: 'photo.unknown' });
    expect(await shop.problem('photos.void', { id, reason: 'again' })).toMatchObject({
      code: 'photo.voided',
      with: { by: 'MK', reason: 'of another animal' },
    });
    shop.wait(60);
    await shop.call('photos.restore', { id });
    expect(await list()).toMatchObject([{ digest, kind: 'damage' }]);
    expect(await shop.problem('photos.restore', { id })).toMatchObject({ code: 'photo.twice' });
    const [again] = await list();
    expect(await shop.problem('photos.restore', { id: again?.id })).toMatchObject({
      code: 'photo.not-voided',
    });
    const history = await shop.call('animals.getHistory', { id: animalId });
    expect(history.map(({ what }) => what).filter((what) => what.startsWith('photo'))).toEqual([
      'photographed',
      'photo-voided',
      'photographed',
    ]);
  });

  it('is not added to an animal that was never here, nor without its file', async () => {
    const digest = await storedPhoto(shop);
    expect(await shop.problem('photos.add', { animalId: 99, kind: 'tag', digest })).toMatchObject({
      code: 'animal.unknown',
    });
    const none = { animalId, kind: 'tag', digest: 'a'.repeat(64) };
    expect(await shop.problem('photos.add', none)).toMatchObject({ code: 'photo.not-here' });
    await shop.call('animals.cancel', { id: animalId, reason: 'entered twice' });
    expect(await shop.problem('photos.add', { animalId, kind: 'tag', digest })).toMatchObject({
      code: 'animal.closed',
    });
  });
});

describe('what is not taken', () => {
  it.each<[string, () => Uint8Array, string]>([
    ['a page with scripts', () => Buffer.from('<html><script>alert(1)</script></html>'), 'photo.no-picture'],
    ['a page that begins like one', () => Buffer.concat([photoOf().subarray(0, 2), Buffer.from('<script>')]), 'photo.no-picture'],
    ['a drawing with scripts', () => Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'), 'photo.no-picture'],
    ['nothing', () => new Uint8Array(), 'photo.no-picture'],
    ['a part of one', () => photoOf().subarray(0, 200), 'photo.no-picture'],
    ['one of more pixels', () => photoOf(1, 1608, 8), 'photo.too-large'],
  ])('%s', async (_what, file, code) => {
    expect(await shop.problem('photos.store', { base64: base64Of(file()) })).toMatchObject({ code });
    expect(existsSync(folder)).toBe(false);
  }); // prettier-ignore

  it.each([
    ['a place in it (EXIF)', withSegment(photoOf(), exifWithPlace())],
    ['an archive behind it', Uint8Array.from([...photoOf(), ...Buffer.from('PK\x03\x04')])],
  ])('%s: refused of what says its digest, and left out of what does not', async (_what, file) => {
    const said = { digest: digestOf(file), base64: base64Of(file) };
    expect(await shop.problem('photos.store', said)).toMatchObject({ code: 'photo.not-bare' });
    expect(existsSync(folder)).toBe(false);
    const { digest } = await shop.call('photos.store', { base64: base64Of(file) });
    expect(readFileSync(photoPath(folder, digest)).equals(photoOf())).toBe(true);
  });

  it('a file of more bytes, or of another digest', async () => {
    const base64 = 'A'.repeat(666_672);
    expect(await shop.problem('photos.store', { base64 })).toMatchObject({ code: 'photo.too-large' });
    const other = { digest: digestOf(photoOf(2)), base64: base64Of(photoOf(1)) };
    expect(await shop.problem('photos.store', other)).toMatchObject({ code: 'photo.other-digest' });
    expect(existsSync(folder)).toBe(false);
  });

  it.each([
    '../../etc/passwd',
    '..%2f..%2fshop.gambrel',
    'A'.repeat(64),
    'a'.repeat(63),
    `${'a'.repeat(62)}/.`,
    `${'a'.repeat(63)}\0`,
    '',
  ])('a digest that is none: %j', async (digest) => {
    for (const [name, input] of [
      ['photos.read', { digest }],
      ['photos.add', { animalId, kind: 'tag', digest }],
      ['photos.store', { digest, base64: base64Of(photoOf()) }],
    ] as const)
      expect(await shop.problem(name, input)).toMatchObject({ kind: 'invalid', code: 'input.invalid' });
    expect(() => photoPath(folder, digest)).toThrow('no digest');
  });

  it('files without end whose entries never come', async () => {
    for (let seed = 1; seed <= 500; seed += 1) await storedPhoto(shop, seed);
    const next = { base64: base64Of(photoOf(501)) };
    expect(await shop.problem('photos.store', next)).toMatchObject({ code: 'photo.waiting' });
    await shop.call('photos.add', { animalId, kind: 'tag', digest: digestOf(photoOf(1)) });
    await shop.call('photos.store', next);
  }, 60_000);
});

describe('by place', () => {
  const at = async (place: Place, name: string, input: unknown) => {
    const { opening } = await shop.call('shop.get', {});
    return shop.desk.callFrom({ place }, name, input, opening);
  };

  it('papers are seen in the office alone; elsewhere that they were photographed', async () => {
    const tag = await addPhoto(shop, animalId, 'tag');
    const damage = await addPhoto(shop, animalId, 'damage');
    const result = await addPhoto(shop, animalId, 'result');
    for (const place of ['counter', 'cooler', 'table', 'pickup'] as const) {
      const listed = await at(place, 'photos.list', { animalId });
      expect(listed).toMatchObject({
        value: [
          { kind: 'tag', digest: '' },
          { kind: 'damage', digest: damage.digest },
          { kind: 'result', digest: '' },
        ],
      });
      for (const { digest } of [tag, result])
        expect(await at(place, 'photos.read', { digest })).toMatchObject({ value: { base64: '' } });
      expect(await at(place, 'photos.read', { digest: damage.digest })).not.toMatchObject({
        value: { base64: '' },
      });
    }
    expect(await at('office', 'photos.read', { digest: tag.digest })).not.toMatchObject({
      value: { base64: '' },
    });
  });

  it('a picture of papers under another name as well is not seen', async () => {
    const { digest } = await addPhoto(shop, animalId, 'tag');
    await shop.call('photos.add', { animalId: await takeIn(shop), kind: 'damage', digest });
    expect(await at('table', 'photos.read', { digest })).toMatchObject({ value: { base64: '' } });
  });

  it.each(['grinder', 'smokehouse', 'hunter'] as const)('nothing at the %s', async (place) => {
    const { id, digest } = await addPhoto(shop, animalId, 'damage');
    for (const [name, input] of [
      ['photos.store', { base64: base64Of(photoOf()) }],
      ['photos.add', { animalId, kind: 'damage', digest }],
      ['photos.list', { animalId }],
      ['photos.read', { digest }],
      ['photos.void', { id, reason: 'x' }],
    ] as const)
      expect(await at(place, name, input)).toMatchObject({ problem: { code: 'station.place' } });
  });
});

describe('the files beside the book', () => {
  it('that are missing or altered are told, never shown, and found with their tickets', async () => {
    const gone = await addPhoto(shop, animalId, 'damage');
    const other = await addPhoto(shop, await takeIn(shop), 'damage');
    const sound = await addPhoto(shop, await takeIn(shop), 'damage');
    expect([await missing(), await shop.call('photos.check', {})]).toEqual([
      0,
      { count: 3, broughtBack: 0, missing: [], altered: [] },
    ]);
    rmSync(photoPath(folder, gone.digest));
    const bytes = readFileSync(photoPath(folder, other.digest));
    bytes[bytes.length - 5] = (bytes.at(-5) ?? 0) ^ 1;
    writeFileSync(photoPath(folder, other.digest), bytes);
    expect(await missing()).toBe(1);
    expect(await shop.problem('photos.read', { digest: gone.digest })).toMatchObject({
      code: 'photo.missing',
    });
    expect(await shop.problem('photos.read', { digest: other.digest })).toMatchObject({
      code: 'photo.altered',
    });
    expect(await shop.call('photos.check', {})).toEqual({
      count: 3,
      broughtBack: 0,
      missing: ['26-0001'],
      altered: ['26-0002'],
    });
    await shop.call('photos.read', { digest: sound.digest });
  });

  it('come back when the same picture is stored again', async () => {
    const photo = photoOf(7);
    const digest = await storedPhoto(shop, 7);
    await shop.call('photos.add', { animalId, kind: 'damage', digest });
    writeFileSync(photoPath(folder, digest), 'spoilt');
    await shop.call('photos.store', { base64: base64Of(photo) });
    expect((await shop.call('photos.read', { digest })).base64).toBe(base64Of(photo));
  });

  it('without an entry count for nothing, and go after a day; those of the book stay', async () => {
    const lone = await storedPhoto(shop);
    const fresh = await storedPhoto(shop);
    const { digest, id } = await addPhoto(shop, animalId);
    await shop.call('photos.void', { id, reason: 'of another animal' });
    expect((await shop.call('photos.check', {})).count).toBe(0);
    const old = new Date(Date.now() - DAY_MS - 60_000);
    for (const one of [lone, digest]) utimesSync(photoPath(folder, one), old, old);
    const half = join(folder, lone.slice(0, 2), 'half.jpg.00000000-1-00000000.part');
    writeFileSync(half, 'half');
    utimesSync(half, old, old);
    tidyPhotos(bookOf());
    expect([...photosIn(folder)].sort()).toEqual([digest, fresh].sort());
    expect(existsSync(half)).toBe(false);
  });

  it('of a book that a restored backup replaced stay too', async () => {
    await shop.call('shop.backUp', {});
    const { digest } = await addPhoto(shop, animalId);
    const { rows } = await shop.call('shop.listBackups', { folder: '' });
    await shop.call('shop.restore', { path: rows.at(-1)?.path ?? '', folder: '' });
    expect(await list()).toEqual([]);
    const old = new Date(Date.now() - 2 * DAY_MS);
    utimesSync(photoPath(folder, digest), old, old);
    tidyPhotos(bookOf());
    expect(photosIn(folder)).toEqual(new Set([digest]));
    // A replaced book that cannot be read may need any of them.
    const aside = readdirSync(dirname(shop.bookPath)).find((name) => name.includes(' set aside ')) ?? '';
    writeFileSync(join(dirname(shop.bookPath), aside), 'not a book');
    tidyPhotos(bookOf());
    expect(photosIn(folder).size).toBe(1);
    rmSync(join(dirname(shop.bookPath), aside));
    tidyPhotos(bookOf());
    expect(photosIn(folder).size).toBe(0);
  });
});

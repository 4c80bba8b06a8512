/** Photographs in what is written out: the whole book, one hunter's records, and archives too large for plain ZIP. */
import { readFileSync, rmSync } from 'node:fs';
import { unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { photoFolder, photoPath } from '../../../src/book/file/photos/files.ts';
import { writeZip } from '../../../src/desk/export/zip.ts';
import { tempBookPath } from '../../book/temp-book.ts';
import { addPhoto } from '../../photo-of.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

async function fetched(shop: FreshDesk, { id }: { id: number }): Promise<Record<string, Uint8Array>> {
  const pieces: Buffer[] = [];
  for (let last = false; !last;) {
    const from = pieces.reduce((sum, { length }) => sum + length, 0);
    const piece = await shop.call('export.getPiece', { id, from });
    pieces.push(Buffer.from(piece.base64, 'base64'));
    ({ last } = piece);
  }
  return unzipSync(Buffer.concat(pieces));
}

it('stand in the archive of the whole book and in that of their hunter, each byte as it lies beside the book', async () => {
  const shop = await freshDesk();
  const mine = await takeIn(shop, { hunter: { name: 'Bo Rask' } });
  const others = await takeIn(shop);
  const tag = await addPhoto(shop, mine, 'tag');
  const damage = await addPhoto(shop, others, 'damage');
  const voided = await addPhoto(shop, mine, 'animal');
  await shop.call('photos.void', { id: voided.id, reason: 'blurred' });
  const gone = await addPhoto(shop, mine, 'result');
  const folder = photoFolder(shop.bookPath);
  rmSync(photoPath(folder, gone.digest));

  const whole = await fetched(shop, await shop.call('export.create', { what: 'tables' }));
  const names = (files: object) => Object.keys(files).filter((name) => name.startsWith('photos/'));
  const [ofTag, ofDamage] = [
    `photos/26-0001/tag ${tag.digest.slice(0, 8)}.jpg`,
    `photos/26-0002/damage ${damage.digest.slice(0, 8)}.jpg`,
  ];
  expect(names(whole)).toEqual([ofTag, ofDamage]);
  expect(Buffer.from(whole[ofTag] ?? []).equals(readFileSync(photoPath(folder, tag.digest)))).toBe(true);
  expect(Buffer.from(whole['tables/photograph.csv'] ?? []).toString()).toContain(gone.digest);

  const { hunter } = await shop.call('animals.get', { id: mine });
  const own = await fetched(shop, await shop.call('export.createForHunter', { id: hunter.id }));
  expect(names(own)).toEqual([ofTag]);
  expect(Buffer.from(own['photograph_void.csv'] ?? []).toString()).toContain('blurred');
  shop.desk.close();
});

it('more than ZIP counts are counted by ZIP64, and others are answered meanwhile', async () => {
  const path = tempBookPath('many');
  const many = 66_000;
  let turns = 0;
  const turn = setInterval(() => (turns += 1), 0);
  await writeZip(path, Array.from({ length: many }, (_, i) => ({ name: `${i}`, bytes: () => Uint8Array.of(i & 255) })));
  clearInterval(turn);
  expect(turns).toBeGreaterThan(3);
  const bytes = readFileSync(path);
  // APPNOTE 4.3.16: the entries that do not fit; 4.3.14: the record that has them; 4.3.15: where it stands.
  const end = bytes.subarray(-22);
  expect([end.readUInt32LE(0), end.readUInt16LE(10)]).toEqual([0x06054b50, 0xffff]);
  const locator = bytes.subarray(-42, -22);
  expect(locator.readUInt32LE(0)).toBe(0x07064b50);
  const record = bytes.subarray(Number(locator.readBigUInt64LE(8)));
  expect([record.readUInt32LE(0), Number(record.readBigUInt64LE(32))]).toEqual([0x06064b50, many]);
  let counted = 0;
  const files = unzipSync(bytes, { filter: ({ name }) => (counted += 1) > 0 && name === '65999' });
  expect(counted).toBe(many);
  expect(files['65999']).toEqual(Uint8Array.of(65_999 & 255));
}, 60_000); // prettier-ignore

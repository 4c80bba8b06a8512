/** Photographs in backups: copied once, locked with a passphrase, brought back, exported, and gone with a hunter's details. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { backupFolder } from '../../../src/book/file/backup.ts';
import { photoFolder, photoPath, photosIn } from '../../../src/book/file/photos/files.ts';
import { addPhoto } from '../../photo-of.ts';
import { freshDesk, takeIn, type FreshDesk } from '../fresh-desk.ts';

const PASSPHRASE = 'nine tails of a cat';
let shop: FreshDesk;
let animalId: number;
let folder: string;
let stick: string;
beforeEach(async () => {
  shop = await freshDesk();
  animalId = await takeIn(shop);
  folder = photoFolder(shop.bookPath);
  stick = join(dirname(shop.bookPath), 'stick');
  mkdirSync(stick);
});
afterEach(() => shop.desk.close());

const list = () => shop.call('photos.list', { animalId });
const useStick = (lock: string | null) =>
  shop
    .call('shop.saveSettings', { changes: { secondBackupFolder: stick } })
    .then(() => shop.call('shop.setLock', { passphrase: lock }));
const backUp = async () => {
  shop.wait(60);
  return shop.call('shop.backUp', {});
};
/** Every file below a folder, by its path in it. */
const filesIn = (place: string): string[] =>
  existsSync(place) ? (readdirSync(place, { recursive: true }) as string[]).filter((name) => name.includes('.jpg')) : []; // prettier-ignore
const restore = (path: string, passphrase = '') =>
  shop.call('shop.restore', { path, folder: '', passphrase });

it('are copied once for all backups, and come back with a restore', async () => {
  const { digest } = await addPhoto(shop, animalId);
  const first = await backUp();
  const copies = filesIn(backupFolder(shop.bookPath));
  expect(copies).toEqual([expect.stringMatching(/^photos book-[0-9a-f]{8}[\\/][0-9a-f]{2}[\\/][0-9a-f]{62}\.jpg$/)]);
  const second = await addPhoto(shop, animalId, 'damage');
  await backUp();
  expect(filesIn(backupFolder(shop.bookPath))).toHaveLength(2);
  const tried = await shop.call('shop.tryBackup', { path: first.path, folder: '' });
  expect(tried.missingPhotos).toBe(0);

  rmSync(folder, { recursive: true });
  expect((await shop.call('shop.listBackups', { folder: '' })).missingPhotos).toBe(2);
  await restore(first.path);
  expect(await list()).toMatchObject([{ digest }]);
  await shop.call('photos.read', { digest });
  expect(photosIn(folder)).toEqual(new Set([digest]));
  expect(await shop.problem('photos.read', { digest: second.digest })).toMatchObject({ code: 'photo.unknown' });
}); // prettier-ignore

it('are locked on the stick like the book, and come back with the passphrase alone', async () => {
  await useStick(PASSPHRASE);
  const { digest } = await addPhoto(shop, animalId);
  const plain = readFileSync(photoPath(folder, digest));
  const made = await backUp();
  const [locked = ''] = filesIn(stick);
  expect(locked).toMatch(/locked-[0-9a-f]{8}.*\.jpg\.gambrel-locked$/);
  expect(readFileSync(join(stick, locked)).includes(plain.subarray(20, 60))).toBe(false);
  expect(filesIn(dirname(shop.bookPath)).filter((name) => name.includes('.part'))).toEqual([]);

  // Another computer: an empty book, the stick, and what the owner remembers.
  const other = await freshDesk();
  const copy = join(dirname(other.bookPath), 'stick');
  mkdirSync(copy);
  for (const name of readdirSync(stick, { recursive: true }) as string[]) {
    const from = join(stick, name);
    if (!/\.gambrel-locked$/.test(name)) mkdirSync(join(copy, name), { recursive: true });
    else writeFileSync(join(copy, name), readFileSync(from));
  }
  const path = join(copy, basename(made.second ?? ''));
  const wrong = { path, folder: copy, passphrase: 'eight tails' };
  expect(await other.problem('shop.restore', wrong)).toMatchObject({ code: 'backup.passphrase' });
  await other.call('shop.restore', { path, folder: copy, passphrase: PASSPHRASE });
  const { base64 } = await other.call('photos.read', { digest });
  expect(Buffer.from(base64, 'base64').equals(plain)).toBe(true);
  other.desk.close();
});

it('lacking beside a backup are counted before and after it is restored', async () => {
  await addPhoto(shop, animalId);
  const { path } = await backUp();
  for (const name of readdirSync(backupFolder(shop.bookPath)))
    if (name.startsWith('photos ')) rmSync(join(backupFolder(shop.bookPath), name), { recursive: true });
  rmSync(folder, { recursive: true });
  expect((await shop.call('shop.tryBackup', { path, folder: '' })).missingPhotos).toBe(1);
  await restore(path);
  expect((await shop.call('shop.listBackups', { folder: '' })).missingPhotos).toBe(1);
});

it('altered or missing come back by a look through them, from beside the book or from the stick', async () => {
  await useStick(PASSPHRASE);
  const one = await addPhoto(shop, animalId);
  const two = await addPhoto(shop, animalId, 'damage');
  await backUp();
  writeFileSync(photoPath(folder, one.digest), 'spoilt');
  rmSync(photoPath(folder, two.digest));
  const beside =
    filesIn(backupFolder(shop.bookPath)).find((name) => name.includes(two.digest.slice(2))) ?? '';
  rmSync(join(backupFolder(shop.bookPath), beside));
  expect(await shop.call('photos.check', {})).toEqual({ count: 2, broughtBack: 2, missing: [], altered: [] });
  for (const { digest } of [one, two]) await shop.call('photos.read', { digest });
});

it('that cannot be copied make a backup fail in a sentence, and the book itself is copied', async () => {
  await addPhoto(shop, animalId);
  const { path } = await backUp();
  const [copies = ''] = readdirSync(backupFolder(shop.bookPath)).filter((name) => name.startsWith('photos '));
  rmSync(join(backupFolder(shop.bookPath), copies), { recursive: true });
  writeFileSync(join(backupFolder(shop.bookPath), copies), 'a file in its place');
  shop.wait(60);
  expect((await shop.problem('shop.backUp', {})).kind).toBe('broken');
  const { rows, problem } = await shop.call('shop.listBackups', { folder: '' });
  expect(problem).not.toBeNull();
  expect(rows[0]?.path).not.toBe(path);
});

it('of a hunter go with the details, at once beside the book and from the backups once those are replaced', async () => {
  await useStick(PASSPHRASE);
  const id = await takeIn(shop, { hunter: { name: 'Bo Rask', phone: '555-0111' } });
  const { hunter } = await shop.call('animals.get', { id });
  const gone = await addPhoto(shop, id, 'tag');
  const voided = await addPhoto(shop, id, 'damage');
  await shop.call('photos.void', { id: voided.id, reason: 'Rask said so' });
  const kept = await addPhoto(shop, animalId, 'tag');
  await shop.call('animals.dispose', { id, what: 'All', how: 'Landfill', reason: 'spoiled' });
  await backUp();
  shop.wait(20 * 366 * 24 * 3600);
  await shop.call('shop.trustClock', {});
  await shop.call('hunters.removeDetails', { id: hunter.id, reason: 'asked for by letter', by: 'MK' });
  expect(photosIn(folder)).toEqual(new Set([kept.digest]));
  expect(await shop.call('photos.list', { animalId: id })).toEqual([]);
  expect(await shop.problem('photos.restore', { id: voided.id })).toMatchObject({ code: 'photo.unknown' });
  const history = await shop.call('animals.getHistory', { id });
  expect(history.filter(({ what }) => what === 'photo-removed').map(({ by }) => by)).toEqual(['MK', 'MK']);

  const held = () => [backupFolder(shop.bookPath), stick].map((place) => filesIn(place).filter((name) => name.includes(gone.digest.slice(2))).length);
  expect(held()).toEqual([1, 1]);
  shop.wait(60);
  await shop.call('shop.renewBackups', {});
  expect(held()).toEqual([0, 0]);
  for (const place of [backupFolder(shop.bookPath), stick])
    expect(filesIn(place)).toEqual([expect.stringContaining(kept.digest.slice(2))]);
}); // prettier-ignore

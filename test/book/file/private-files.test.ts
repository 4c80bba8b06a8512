/** Other accounts of the computer read nothing of the shop: files 0600, folders 0700, also of books that exist already. */
import {
  chmodSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { backUp, backupFolder } from '../../../src/book/file/backup.ts';
import { closeBook, openBook } from '../../../src/book/file/open.ts';
import { copyPrivately, othersCanRead } from '../../../src/book/file/private-files.ts';
import { setAside } from '../../../src/book/file/books-aside.ts';
import { restoreBackup } from '../../../src/book/file/restore.ts';
import { seal } from '../../../src/book/file/seal.ts';
import { makeLock } from '../../../src/book/file/locked-file.ts';
import { copyToSecondPlace } from '../../../src/book/file/second-place.ts';

const NOW = new Date('2026-11-20T08:00:00Z');

let folder: string;
let mask: number;
beforeEach(() => {
  mask = process.umask(0o022); // as most systems have it: nothing here rests on the program's own mask
  folder = mkdtempSync(join(tmpdir(), 'gambrel-private-'));
  chmodSync(folder, 0o755); // somebody's own folder
});
afterEach(() => {
  process.umask(mask);
  rmSync(folder, { recursive: true, force: true });
});

const modeOf = (path: string) => (statSync(path).mode & 0o777).toString(8);
/** Modes of all that lies below a folder, by name without moments. */
const modesBelow = (top: string) =>
  readdirSync(top, { recursive: true, encoding: 'utf8' })
    .map(
      (name) =>
        `${modeOf(join(top, name))} ${name.replace(/\d{4}-\d\d-\d\dT[\d-]+/g, 'T').replace(/book-\w+/g, 'book-X')}`,
    )
    .toSorted();

describe.runIf(process.platform !== 'win32')('modes', () => {
  it('of a new book, its logs, its backups and its seal', () => {
    const path = join(folder, 'new', 'deep', 'shop.gambrel');
    const db = openBook(path, NOW);
    backUp(db, path, NOW);
    expect(modesBelow(folder)).toEqual([
      '600 new/deep/shop backups/shop book-X T.gambrel',
      '600 new/deep/shop.gambrel',
      '600 new/deep/shop.gambrel-shm',
      '600 new/deep/shop.gambrel-wal',
      '700 new',
      '700 new/deep',
      '700 new/deep/shop backups',
    ]);
    closeBook(db);
    seal(path);
    expect(modeOf(join(backupFolder(path), 'last closed.sha256'))).toBe('600');
    expect(modeOf(folder)).toBe('755');
  });

  it('of an existing book, with its log, its backups and a replaced book', () => {
    const path = join(folder, 'shop.gambrel');
    const first = openBook(path, NOW);
    backUp(first, path, NOW);
    closeBook(first);
    copyFileSync(path, `${path} set aside 2026-11-19T08-00-00`);
    const writer = openBook(path, NOW);
    writer.exec('CREATE TABLE x (y); DROP TABLE x');
    const names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
    for (const name of names)
      chmodSync(join(folder, name), statSync(join(folder, name)).isDirectory() ? 0o755 : 0o644);
    writeFileSync(join(folder, 'letter.txt'), 'no matter of ours');
    expect(modesBelow(folder).filter((one) => one.startsWith('600'))).toEqual([]);
    const second = openBook(path, NOW);
    expect(modesBelow(folder)).toEqual([
      '600 shop backups/shop book-X T.gambrel',
      '600 shop.gambrel',
      '600 shop.gambrel set aside T',
      '600 shop.gambrel-shm',
      '600 shop.gambrel-wal',
      '644 letter.txt',
      '700 shop backups',
    ]);
    expect(modeOf(folder)).toBe('755');
    closeBook(second);
    closeBook(writer);
  });

  it('of copies in a second place, plain and encrypted, new and old, without changes to the folder', () => {
    const path = join(folder, 'shop.gambrel');
    const stick = join(folder, 'stick');
    mkdirSync(stick, { mode: 0o777 });
    chmodSync(stick, 0o777);
    const db = openBook(path, NOW);
    const made = backUp(db, path, NOW);
    closeBook(db);
    const before = copyToSecondPlace(made, path, stick, false);
    chmodSync(before.path, 0o644);
    copyToSecondPlace(made, path, stick, false);
    copyToSecondPlace(made, path, stick, makeLock('a few plain words'));
    expect(modesBelow(stick).map((one) => one.slice(0, 3))).toEqual(['600', '600', '600']);
    expect(modeOf(stick)).toBe('777');
  });

  it('of a book restored from a world-readable file', () => {
    const path = join(folder, 'shop.gambrel');
    const db = openBook(path, NOW);
    const made = backUp(db, path, NOW);
    closeBook(db);
    chmodSync(made.path, 0o777);
    restoreBackup(path, made, NOW);
    expect(modeOf(path)).toBe('600');
    setAside(path, NOW);
  });

  it('of a copy, from its first byte, and never through a link in its place', () => {
    const source = join(folder, 'source');
    writeFileSync(source, 'x'.repeat(3_000_000), { mode: 0o777 });
    copyPrivately(source, join(folder, 'copy'));
    expect(modeOf(join(folder, 'copy'))).toBe('600');
    expect(statSync(join(folder, 'copy')).size).toBe(3_000_000);
    expect(() => copyPrivately(source, join(folder, 'copy'))).toThrow('EEXIST');
  });
});

describe.runIf(process.platform !== 'win32')('whether others can read a file', () => {
  const file = () => {
    const path = join(folder, 'home', 'book');
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, '');
    return path;
  };

  it.each([
    [0o644, 0o755, true],
    [0o640, 0o755, true],
    [0o600, 0o777, false],
    [0o666, 0o700, false],
    [0o755, 0o750, false],
  ])('file %o in a folder %o: %s', (mode, above, read) => {
    const path = file();
    chmodSync(path, mode);
    chmodSync(dirname(path), above);
    expect(othersCanRead(path)).toBe(read);
  });

  it('is false for a missing file', () => {
    expect(othersCanRead(join(folder, 'nothing'))).toBe(false);
  });
});

/** Several books that keep their backups in one place: each thins its own, and nobody else's. */
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  renameSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backUp, backupFolder, listBackups, thinBackups } from '../../../src/book/file/backup.ts';
import { ownBackups, ownerOf } from '../../../src/book/file/backup-owner.ts';
import { identityOf, labelOf } from '../../../src/book/file/book-identity.ts';
import { openRecordBook, type Book } from '../../../src/book/book.ts';
import { lockFile, makeLock, readHeader, type Lock } from '../../../src/book/file/locked-file.ts';
import { restoreBackup } from '../../../src/book/file/restore.ts';
import { copyToSecondPlace } from '../../../src/book/file/second-place.ts';
import { tempBookPath } from '../temp-book.ts';
import { troubleOf } from './book-error-of.ts';

const day = (n: number, hour = 12): Date =>
  new Date(`2026-10-${String(n).padStart(2, '0')}T${String(hour).padStart(2, '0')}:00:00Z`);
const lock = makeLock('three cold elk hooks');

function note(book: Book, at: Date): void {
  book.change(() =>
    book.audit.note({ record: 'setting', recordId: 'unit', act: 'change', at: at.toISOString(), by: 'MK' }),
  );
}

/** A book that made `count` backups in one day, copied to `stick`. */
function shopWithBackups(stick: string, count: number, how: Lock | false, path = tempBookPath()): Book {
  const book = openRecordBook(path, day(1));
  for (let n = 0; n < count; n++) backUpTo(book, stick, day(1, n % 24), how);
  return book;
}

function backUpTo(book: Book, stick: string, at: Date, how: Lock | false): string {
  note(book, at);
  return copyToSecondPlace(backUp(book.db, book.path, at), book.path, stick, how).path;
}

function newStick(): string {
  const stick = join(dirname(tempBookPath()), 'stick');
  mkdirSync(stick);
  return stick;
}

describe('a second place shared by several books', () => {
  it.each([
    ['plain', false],
    ['locked', lock],
  ] as const)('loses no %s backup of one shop when another backs up', (_name, how) => {
    const stick = newStick();
    const first = shopWithBackups(stick, 12, how);
    const before = readdirSync(stick);
    expect(before).toHaveLength(12);
    const second = shopWithBackups(stick, 1, false);
    for (let n = 5; n < 9; n++) backUpTo(second, stick, day(n), false);
    expect(readdirSync(stick).filter((name) => before.includes(name))).toEqual(before);
    // The shop itself still thins what is its own.
    backUpTo(first, stick, day(10), how);
    expect(readdirSync(stick).filter((name) => before.includes(name))).toHaveLength(1);
    first.close();
    second.close();
  });

  it('loses nothing of a copied book that continued as another shop', () => {
    const stick = newStick();
    const first = shopWithBackups(stick, 2, false);
    first.close();
    const copied = tempBookPath();
    copyFileSync(first.path, copied);
    const [one, other] = [openRecordBook(first.path, day(2)), openRecordBook(copied, day(2))];
    expect(identityOf(one.db)).toBe(identityOf(other.db));
    const kept = [8, 9, 10].map((hour) => backUpTo(other, stick, day(2, hour), false));
    backUpTo(one, stick, day(2, 7), lock);
    for (const n of [3, 4, 5]) backUpTo(one, stick, day(n), lock);
    expect(kept.filter((path) => existsSync(path))).toEqual(kept);
    one.close();
    other.close();
  });

  it('never overwrites a copy of the same name', () => {
    const stick = newStick();
    const first = shopWithBackups(stick, 1, false);
    first.close();
    const copied = tempBookPath();
    copyFileSync(first.path, copied);
    const [one, other] = [openRecordBook(first.path, day(2)), openRecordBook(copied, day(2))];
    const paths = [one, other].map((book) => backUpTo(book, stick, day(2), false));
    expect(new Set(paths).size).toBe(2);
    expect(paths.every((path) => existsSync(path))).toBe(true);
    one.close();
    other.close();
  });

  it("keeps the backups of a restored book's other continuation, and rotates common ones", () => {
    const stick = newStick();
    const book = shopWithBackups(stick, 1, false);
    const path = backUpTo(book, stick, day(2, 8), false);
    const left = backUpTo(book, stick, day(2, 9), false);
    book.close();
    restoreBackup(book.path, { path, locked: false }, day(3));
    const again = openRecordBook(book.path, day(3));
    const last = backUpTo(again, stick, day(2, 10), false);
    backUpTo(again, stick, day(4), false);
    expect([path, left, last].map((one) => existsSync(one))).toEqual([false, true, true]);
    again.close();
  });

  it("does not refuse a plain copy because of another shop's encrypted ones", () => {
    const stick = newStick();
    shopWithBackups(stick, 1, lock).close();
    const second = openRecordBook(tempBookPath(), day(1));
    const made = backUp(second.db, second.path, day(2));
    expect(troubleOf(() => copyToSecondPlace(made, second.path, stick, null))).toBe('none');
    second.close();
  });
});

describe('backups without an identity in their names', () => {
  /** A book of the same contents whose identity is that of its first entry, and whose backups carry none in their names. */
  function oldShop(stick: string, hours: readonly number[], how: Lock | false): Book {
    const book = openRecordBook(tempBookPath(), day(1));
    book.db.exec("DELETE FROM setting WHERE key = 'bookIdentity'");
    note(book, new Date(day(1).getTime() + Math.floor(Math.random() * 1e6)));
    for (const hour of hours) {
      const made = backUp(book.db, book.path, day(1, hour));
      const old = join(dirname(made.path), basename(made.path).replace(/ book-[0-9a-f]{8}/, ''));
      renameSync(made.path, old);
      if (how) lockFile(old, join(stick, basename(old).replace('.gambrel', '.gambrel-locked')), how);
      else copyFileSync(old, join(stick, basename(old)));
    }
    return book;
  }

  it.each([
    ['plain', false, makeLock('another one')],
    ['locked', lock, makeLock('another one')],
  ] as const)('are known again by what is in them: %s', (_name, how, otherLock) => {
    const stick = newStick();
    const ours = oldShop(stick, [1, 2, 3], how);
    const theirs = oldShop(stick, [4, 5, 6], how && otherLock);
    const unreadable = join(stick, 'shop 2026-10-01T07-00-00.gambrel');
    writeFileSync(unreadable, 'cut short');
    expect(readdirSync(stick)).toHaveLength(7);
    backUpTo(ours, stick, day(2), how);
    const left = readdirSync(stick)
      .map((name) => /T(\d\d)-/.exec(name)?.[1])
      .sort();
    expect(left).toEqual(['03', '04', '05', '06', '07', '12']);
    ours.close();
    theirs.close();
  });

  it('are rotated beside the book as well', () => {
    const ours = oldShop(newStick(), [1, 2, 3], false);
    const made = backUp(ours.db, ours.path, day(2));
    const beside = listBackups(ours.path);
    expect(beside).toHaveLength(4);
    thinBackups(beside, made, (backups) => ownBackups(ours.db, identityOf(ours.db), backups));
    expect(listBackups(ours.path).map(({ at }) => at)).toEqual([
      '2026-10-02T12:00:00Z',
      '2026-10-01T03:00:00Z',
    ]);
    ours.close();
  });

  it('have the identity of the migrated book', () => {
    const stick = newStick();
    const ours = oldShop(stick, [1], false);
    const [old] = listBackups(ours.path, stick);
    expect(old && ownerOf(old)?.label.book).toBe(identityOf(ours.db));
    ours.close();
  });
});

describe('an encrypted copy', () => {
  it('shows its owner without the key, and nothing else', () => {
    const stick = newStick();
    const book = shopWithBackups(stick, 1, lock);
    const [copy] = listBackups(book.path, stick);
    expect(copy && readHeader(copy.path)?.label).toEqual(labelOf(book.db));
    expect(copy && ownerOf(copy)).toMatchObject({ label: { book: identityOf(book.db) }, shop: '' });
    book.close();
  });
});

describe("the folder of the book's own backups", () => {
  it('is not accepted as second place, by any path', () => {
    const book = openRecordBook(tempBookPath(), day(1));
    const own = backupFolder(book.path);
    expect(troubleOf(() => backUpTo(book, own, day(1), false))).toBe('same-place');
    const link = join(dirname(book.path), 'stick');
    symlinkSync(own, link);
    mkdirSync(join(own, 'deeper'));
    for (const name of [`${own}/`, `${own}/.`, link, join(own, 'deeper'), join(own, '..', basename(own))])
      expect(
        troubleOf(() => backUpTo(book, name, day(2), false)),
        name,
      ).toBe('same-place');
    expect(troubleOf(() => backUpTo(book, dirname(newStick()), day(3), false))).toBe('none');
    book.close();
  });
});

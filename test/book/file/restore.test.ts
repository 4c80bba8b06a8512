import { existsSync, mkdirSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { backUp, listBackups } from '../../../src/book/file/backup.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { makeLock } from '../../../src/book/file/locked-file.ts';
import { BOOK_VERSION } from '../../../src/book/migrations/index.ts';
import { listSetAside } from '../../../src/book/file/books-aside.ts';
import { restoreBackup, undoRestore, tryBackup } from '../../../src/book/file/restore.ts';
import { copyToSecondPlace } from '../../../src/book/file/second-place.ts';
import { smallDisk } from '../small-disk.ts';
import { tempBookPath } from '../temp-book.ts';
import { troubleOf } from './book-error-of.ts';

const NOW = new Date('2026-10-01T12:00:00Z');
const HUNTER = { phone: '', email: '', address: '', licence: '', refusesPooling: false };
const lock = makeLock('three cold elk hooks');

/** A book with a backup of `first`, to which `second` was added afterwards. */
function bookOfTwo() {
  const path = tempBookPath();
  const book = openRecordBook(path, NOW);
  const add = (name: string) => book.change(() => book.hunters.add({ name, ...HUNTER }, NOW.toISOString()));
  add('first');
  const backup = backUp(book.db, path, NOW);
  add('second');
  book.close();
  return { path, backup };
}

function namesIn(path: string): string[] {
  const book = openRecordBook(path, NOW);
  const names = book.db.prepare<[], string>('SELECT name FROM hunter ORDER BY id').pluck().all();
  book.close();
  return names;
}

describe('restoring a backup', () => {
  it('keeps the replaced book, and restoring that reverses it', () => {
    const { path, backup } = bookOfTwo();
    const aside = restoreBackup(path, backup, NOW);
    expect(namesIn(path)).toEqual(['first']);
    expect(aside).toBe(`${path} set aside 2026-10-01T12-00-00`);
    const [kept] = listSetAside(path);
    if (!kept) throw new Error('nothing was set aside');
    expect(kept).toMatchObject({ path: aside, at: '2026-10-01T12:00:00Z' });
    restoreBackup(path, kept, NOW);
    expect(namesIn(path)).toEqual(['first', 'second']);
    expect(listSetAside(path)).toHaveLength(2);
  });

  it('can be undone immediately', () => {
    const { path, backup } = bookOfTwo();
    undoRestore(path, restoreBackup(path, backup, NOW));
    expect(namesIn(path)).toEqual(['first', 'second']);
    expect(listSetAside(path)).toEqual([]);
  });

  it('restores a book whose newest entries are only in its log', () => {
    const { path, backup } = bookOfTwo();
    const cut = new Database(path);
    cut.exec("INSERT INTO setting VALUES ('late', '1')");
    writeFileSync(`${path}.wal-kept`, readFileSync(`${path}-wal`));
    const main = readFileSync(path);
    cut.close();
    writeFileSync(path, main);
    writeFileSync(`${path}-wal`, readFileSync(`${path}.wal-kept`));
    // As after a power cut: the book with a log beside it, set aside by a plain renaming.
    const aside = `${path} set aside 2026-10-01T11-00-00`;
    for (const end of ['', '-wal']) writeFileSync(aside + end, readFileSync(path + end));
    undoRestore(path, restoreBackup(path, backup, NOW));
    const [kept] = listSetAside(path);
    if (!kept) throw new Error('nothing was set aside');
    restoreBackup(path, kept, new Date('2026-10-01T13:00:00Z'));
    const book = openRecordBook(path, NOW);
    expect(book.settings.all()).toMatchObject({ late: 1 });
    book.close();
  });

  it('reports the contents of a backup without changes', () => {
    const { path, backup } = bookOfTwo();
    const before = readFileSync(path);
    expect(tryBackup(path, backup, NOW)).toMatchObject({
      version: BOOK_VERSION, animals: 0, weighings: 0, payments: 0, lastEntry: null,
    }); // prettier-ignore
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(readdirSync(dirname(path)).sort()).toEqual(['shop backups', 'shop.gambrel']);
  });

  it('refuses a damaged, truncated, foreign or newer one and leaves the book unchanged', () => {
    const { path, backup } = bookOfTwo();
    const before = readFileSync(path);
    const whole = readFileSync(backup.path);
    const put = (bytes: Buffer | string) => writeFileSync(backup.path, bytes);
    const refusals: [string, () => void][] = [
      ['backup', () => put(whole.subarray(0, 8000))],
      ['backup', () => put('words '.repeat(900))],
      [
        'backup',
        () => put(Buffer.concat([whole.subarray(0, 8192), Buffer.alloc(whole.length - 8192, 0xa5)])),
      ],
      ['backup', () => put('')],
    ];
    for (const [code, spoil] of refusals) {
      spoil();
      expect(troubleOf(() => restoreBackup(path, backup, NOW))).toBe(code);
    }
    put(whole);
    const newer = new Database(backup.path);
    newer.pragma(`user_version = ${BOOK_VERSION + 1}`);
    newer.close();
    expect(troubleOf(() => restoreBackup(path, backup, NOW))).toBe('newer');
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(readdirSync(dirname(path)).sort()).toEqual(['shop backups', 'shop.gambrel']);
  });

  it('is refused while another program has the book open, even read-only', () => {
    const { path, backup } = bookOfTwo();
    const other = openRecordBook(path, NOW);
    expect(troubleOf(() => restoreBackup(path, backup, NOW))).toBe('locked');
    expect(other.db.prepare('SELECT count(*) FROM hunter').pluck().get()).toBe(2);
    other.close();
    expect(troubleOf(() => restoreBackup(path, backup, NOW))).toBe('none');
  });

  it('works where the book is missing or unreadable', () => {
    const { path, backup } = bookOfTwo();
    truncateSync(path, 3000);
    expect(restoreBackup(path, backup, NOW)).not.toBeNull();
    expect(namesIn(path)).toEqual(['first']);
    const [aside] = listSetAside(path);
    expect(aside?.bytes).toBe(3000);
  });
});

describe('the second place', () => {
  function withStick() {
    const { path, backup } = bookOfTwo();
    const stick = join(dirname(path), 'stick');
    mkdirSync(stick);
    return { path, backup, stick };
  }

  it('gets the same copy, verified', () => {
    const { path, backup, stick } = withStick();
    const copy = copyToSecondPlace(backup, path, stick, null);
    expect(readFileSync(copy.path).equals(readFileSync(backup.path))).toBe(true);
    expect(readdirSync(stick)).toEqual([basename(backup.path)]);
    expect(listBackups(path, stick)).toEqual([copy]);
  });

  it('gets only an encrypted copy when there is a lock, and the passphrase opens it', () => {
    const { path, backup, stick } = withStick();
    const copy = copyToSecondPlace(backup, path, stick, lock);
    expect(readdirSync(stick)).toEqual([basename(copy.path)]);
    expect(readFileSync(copy.path).includes('SQLite format')).toBe(false);
    expect(readFileSync(copy.path).includes('first')).toBe(false);
    expect(readdirSync(dirname(backup.path))).toEqual([basename(backup.path)]);
    expect(troubleOf(() => restoreBackup(path, copy, NOW))).toBe('passphrase');
    expect(troubleOf(() => restoreBackup(path, copy, NOW, { opener: 'three warm elk hooks' }))).toBe(
      'passphrase',
    );
    expect(namesIn(path)).toEqual(['first', 'second']);
    restoreBackup(path, copy, NOW, { opener: 'three cold elk hooks' });
    expect(namesIn(path)).toEqual(['first']);
  });

  it('gets no plain copy among encrypted ones from a book without the lock', () => {
    const { path, backup, stick } = withStick();
    copyToSecondPlace(backup, path, stick, lock);
    const book = openRecordBook(path, NOW);
    const later = backUp(book.db, path, new Date('2026-10-02T12:00:00Z'));
    book.close();
    expect(troubleOf(() => copyToSecondPlace(later, path, stick, null))).toBe('unlocked');
    expect(readdirSync(stick)).toHaveLength(1);
    expect(troubleOf(() => copyToSecondPlace(later, path, stick, false))).toBe('none');
  });

  it('is not created if it is missing', () => {
    const { path, backup, stick } = withStick();
    expect(troubleOf(() => copyToSecondPlace(backup, path, join(stick, 'gone'), null))).toBe('no-stick');
    expect(existsSync(join(stick, 'gone'))).toBe(false);
  });

  it('keeps no partial file when it is full', () => {
    const disk = smallDisk(64);
    if (!disk) return expect(process.getuid?.()).not.toBe(0); // only who may mount can try this
    try {
      const { path, backup } = bookOfTwo();
      for (const how of [null, lock]) {
        expect(troubleOf(() => copyToSecondPlace(backup, path, disk.path, how))).toBe('full');
        expect(readdirSync(disk.path)).toEqual([]);
      }
      expect(existsSync(backup.path)).toBe(true);
    } finally {
      disk.remove();
    }
  });

  it('is rotated by the same rule', () => {
    const { path, stick } = withStick();
    const book = openRecordBook(path, NOW);
    for (const at of ['2026-10-01T08:00:00Z', '2026-10-01T09:00:00Z', '2026-10-02T09:00:00Z'])
      copyToSecondPlace(backUp(book.db, path, new Date(at)), path, stick, null);
    book.close();
    expect(listBackups(path, stick).map(({ at }) => at)).toEqual([
      '2026-10-02T09:00:00Z',
      '2026-10-01T09:00:00Z',
    ]);
  });
});

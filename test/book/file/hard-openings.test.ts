/** Openings that go wrong for reasons outside the book, each with its own trouble. */
import { spawn } from 'node:child_process';
import { chmodSync, mkdirSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { backUp, backupFolder } from '../../../src/book/file/backup.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { expectBook } from '../../../src/book/file/expect-book.ts';
import { closeBook, inspectBook, openBook } from '../../../src/book/file/open.ts';
import { breakSeal, seal, sealHolds } from '../../../src/book/file/seal.ts';
import { bookErrorOf } from '../../../src/book/file/book-error.ts';
import { smallDisk } from '../small-disk.ts';
import { tempBookPath } from '../temp-book.ts';
import { troubleOf } from './book-error-of.ts';

const NOW = new Date('2026-10-01T12:00:00Z');
const HUNTER = { phone: '', email: '', address: '', licence: '', refusesPooling: false };
const openAt = (path: string) => troubleOf(() => closeBook(openBook(path, NOW)));

function filledBook(hunters = 300): string {
  const path = tempBookPath();
  const book = openRecordBook(path, NOW);
  book.change(() => {
    for (let n = 0; n < hunters; n++) book.hunters.add({ name: `Hunter ${n}`, ...HUNTER }, NOW.toISOString());
  });
  backUp(book.db, path, NOW);
  book.close();
  return path;
}

describe('a truncated or missing file', () => {
  it.each([0.1, 0.5, 0.9])('is refused when cut to %f of its length', (share) => {
    const path = filledBook();
    truncateSync(path, Math.floor(statSync(path).size * share));
    expect(openAt(path)).toBe('damaged');
  });

  it('is refused when truncated within its first page', () => {
    const path = filledBook();
    truncateSync(path, 50);
    expect(openAt(path)).toBe('damaged');
  });

  it('is a loss when it is empty or missing and there are backups, and a first start when there are none', () => {
    const path = filledBook();
    truncateSync(path, 0);
    expect(troubleOf(() => expectBook(path))).toBe('damaged');
    expect(troubleOf(() => expectBook(join(dirname(path), 'other.gambrel')))).toBe('none');
    const gone = join(dirname(path), 'gone.gambrel');
    mkdirSync(backupFolder(gone));
    expect(troubleOf(() => expectBook(gone))).toBe('none');
    writeFileSync(join(backupFolder(gone), 'gone 2026-10-01T08-00-00.gambrel'), readFileSync(path));
    expect(troubleOf(() => expectBook(gone))).toBe('missing');
  });
});

describe('the seal', () => {
  it('detects a flipped bit inside a name, which SQLite does not', () => {
    const path = filledBook();
    seal(path);
    expect(sealHolds(path)).toBe(true);
    const bytes = readFileSync(path);
    const at = bytes.indexOf('Hunter 299');
    bytes[at + 1] = (bytes[at + 1] ?? 0) ^ 1;
    writeFileSync(path, bytes);
    expect(troubleOf(() => inspectBook(path))).toBe('none');
    expect(sealHolds(path)).toBe(false);
    breakSeal(path);
    expect(sealHolds(path)).toBe(true);
  });

  it('ignores a book whose last run was interrupted, and is not written while another program has it open', () => {
    const path = filledBook();
    seal(path);
    const other = new Database(path);
    other.exec("INSERT INTO setting VALUES ('x', '1')");
    expect(sealHolds(path)).toBe(true);
    breakSeal(path);
    seal(path);
    other.close();
    writeFileSync(path, 'anything');
    expect(sealHolds(path)).toBe(true);
  });
});

describe('the folder of the book', () => {
  it('is reported where it supports no log, as network drives do', () => {
    const path = filledBook();
    mkdirSync(`${path}-shm`);
    expect(openAt(path)).toMatch(/^(folder|read-only)$/);
  });

  it('is reported where it cannot be created', () => {
    const path = tempBookPath();
    writeFileSync(join(dirname(path), 'file'), '');
    expect(openAt(join(dirname(path), 'file', 'shop.gambrel'))).toBe('folder');
  });

  it('is reported where the book is read-only', async () => {
    const path = filledBook();
    chmodSync(dirname(path), 0o777);
    chmodSync(path, 0o444);
    // Root may write anywhere, so the attempt is made as a user who is nobody.
    const nobody = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
    const open = JSON.stringify(join(import.meta.dirname, '../../../src/book/file/open.ts'));
    const script = `import { openBook } from ${open};
      try { openBook(${JSON.stringify(path)}, new Date()); console.log('none'); } catch (error) { console.log(error.code); }`;
    const child = spawn(process.execPath, ['--input-type=module', '-e', script], { ...nobody });
    let said = '';
    child.stdout.on('data', (text: Buffer) => (said += text.toString()));
    await new Promise((done) => child.once('close', done));
    expect(said.trim()).toBe('read-only');
  });

  it.each([
    ['SQLITE_FULL', 'full'],
    ['ENOSPC', 'full'],
    ['EDQUOT', 'full'],
    ['SQLITE_IOERR_WRITE', 'drive'],
    ['SQLITE_IOERR_SHMMAP', 'folder'],
    ['EIO', 'drive'],
    ['ESTALE', 'drive'],
    ['EROFS', 'read-only'],
    ['SQLITE_READONLY_DBMOVED', 'read-only'],
    ['SQLITE_CORRUPT_INDEX', 'damaged'],
    ['SQLITE_BUSY_SNAPSHOT', 'locked'],
  ])('%s means %s', (code, trouble) => {
    // Beside the temporary files, so that these cannot be what is full.
    const error = Object.assign(new Error('as the system says it'), { code });
    expect(bookErrorOf(error, tempBookPath()).code).toBe(trouble);
  });
});

describe('a full disk', () => {
  const disk = smallDisk(2048);

  it.skipIf(!disk)('refuses the change, keeps earlier ones, and accepts more once there is room', () => {
    const path = join(disk?.path ?? '', 'shop.gambrel');
    const ballast = join(disk?.path ?? '', 'ballast');
    try {
      writeFileSync(ballast, Buffer.alloc(300_000, 1));
      const book = openRecordBook(path, NOW);
      const add = (name: string) => book.change(() => book.hunters.add({ name, ...HUNTER }, ''));
      add('first');
      const names = () => book.db.prepare('SELECT count(*) FROM hunter').pluck().get();
      let kept = 1;
      const refused = troubleOf(() => {
        try {
          for (; kept < 10_000; kept++) add('x'.repeat(2000));
        } catch (error) {
          throw bookErrorOf(error, path);
        }
      });
      expect(refused).toBe('full');
      expect(kept).toBeGreaterThan(1);
      expect(names()).toBe(kept);
      expect(book.db.pragma('integrity_check', { simple: true })).toBe('ok');
      expect(troubleOf(() => backUp(book.db, path, NOW))).toBe('full');
      expect(names()).toBe(kept);
      // What does not fit into the one file stays in the log beside it, and is there again once there is room.
      book.close();
      expect(statSync(`${path}-wal`).size).toBeGreaterThan(0);
      expect(openAt(path)).toMatch(/^(none|full)$/);
      rmSync(ballast);
      const again = openRecordBook(path, NOW);
      expect(again.db.prepare('SELECT count(*) FROM hunter').pluck().get()).toBe(kept);
      again.change(() => again.hunters.add({ name: 'last', ...HUNTER }, ''));
      again.close();
    } finally {
      disk?.remove();
    }
  });

  it.skipIf(!disk)('opens a book on a full disk, or reports that it is full', () => {
    // Room for an empty book and its log, so that closing leaves no log behind.
    const small = smallDisk(4096);
    try {
      const path = join(small?.path ?? '', 'shop.gambrel');
      closeBook(openBook(path, NOW));
      expect(() => writeFileSync(join(small?.path ?? '', 'ballast'), Buffer.alloc(4096 * 1024, 1))).toThrow(
        /ENOSPC/,
      );
      expect(openAt(path)).toBe('full');
    } finally {
      small?.remove();
    }
  });
});

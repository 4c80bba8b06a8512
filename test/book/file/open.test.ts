import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  writeFileSync,
} from 'node:fs';
import { spawnSync } from 'node:child_process';
import { dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openRecordBook } from '../../../src/book/book.ts';
import { APPLICATION_ID, BOOK_VERSION } from '../../../src/book/migrations/index.ts';
import { closeBook, openBook } from '../../../src/book/file/open.ts';
import { tempBookPath } from '../temp-book.ts';
import { troubleOf } from './book-error-of.ts';

const NOW = new Date('2026-10-01T12:00:00Z');

const troubleAt = (path: string) => troubleOf(() => closeBook(openBook(path, NOW)));

describe('opening the book', () => {
  it('creates a new one with application id, durability and foreign keys', () => {
    const path = tempBookPath();
    const db = openBook(path, NOW);
    expect(db.pragma('application_id', { simple: true })).toBe(APPLICATION_ID);
    expect(db.pragma('user_version', { simple: true })).toBe(BOOK_VERSION);
    expect(db.pragma('journal_mode', { simple: true })).toBe('wal');
    expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
    closeBook(db);
  });

  it('restores full durability for a reopened book, where SQLite does not', () => {
    const path = tempBookPath();
    closeBook(openBook(path, NOW));
    const bare = new Database(path);
    expect(bare.pragma('synchronous', { simple: true })).toBe(1);
    bare.close();
    const db = openBook(path, NOW);
    expect(db.pragma('synchronous', { simple: true })).toBe(2);
    closeBook(db);
  });

  it('leaves one file when closed', () => {
    const path = tempBookPath();
    const book = openRecordBook(path, NOW);
    book.change(() => book.settings.put('shopName', 'One file'));
    book.close();
    expect(readdirSync(dirname(path))).toEqual(['shop.gambrel']);
  });

  it('creates the folder where it is missing', () => {
    const path = join(dirname(tempBookPath()), 'deep', 'er', 'shop.gambrel');
    expect(troubleAt(path)).toBe('none');
    expect(existsSync(path)).toBe(true);
  });

  it('reports a file that is no book', () => {
    const path = tempBookPath();
    writeFileSync(path, 'These are my notes, not a record book. '.repeat(100));
    expect(troubleAt(path)).toBe('foreign');
    expect(readFileSync(path, 'utf8')).toContain('These are my notes');
  });

  it("reports another program's database and does not change it", () => {
    const path = tempBookPath();
    const other = new Database(path);
    other.exec('CREATE TABLE recipe (name TEXT)');
    other.close();
    const before = readFileSync(path);
    expect(troubleAt(path)).toBe('foreign');
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('reports a book from a newer program', () => {
    const path = tempBookPath();
    closeBook(openBook(path, NOW));
    const db = new Database(path);
    db.pragma(`user_version = ${BOOK_VERSION + 1}`);
    db.close();
    expect(troubleAt(path)).toBe('newer');
  });

  it('reports a damaged book', () => {
    const path = tempBookPath();
    const book = openRecordBook(path, NOW);
    book.change(() => {
      for (let i = 0; i < 500; i++)
        book.hunters.add(
          {
            name: `Hunter ${i}`,
            phone: '',
            email: '',
            address: 'x'.repeat(200),
            licence: '',
            refusesPooling: false,
          },
          '2026',
        );
    });
    book.close();
    const bytes = readFileSync(path);
    bytes.fill(0xa5, 4096 * 3, bytes.length - 4096);
    writeFileSync(path, bytes);
    expect(troubleAt(path)).toBe('damaged');
  });

  it('reports a book that another program has locked', () => {
    const path = tempBookPath();
    closeBook(openBook(path, NOW));
    const other = new Database(path);
    other.pragma('locking_mode = EXCLUSIVE');
    other.exec("BEGIN EXCLUSIVE; INSERT INTO setting VALUES ('x', '1'); COMMIT");
    expect(troubleAt(path)).toBe('locked');
    other.close();
    expect(troubleAt(path)).toBe('none');
  });

  it('reports a read-only folder', () => {
    const path = tempBookPath();
    const folder = dirname(path);
    chmodSync(folder, 0o555);
    const script = `
      import { openBook } from ${JSON.stringify(join(import.meta.dirname, '../../../src/book/file/open.ts'))};
      try { openBook(${JSON.stringify(path)}, new Date()); console.log('none'); } catch (error) { console.log(error.code); }`;
    // Root may write anywhere, so the attempt is made as a user who is nobody.
    const nobody = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
    const run = spawnSync(process.execPath, ['--input-type=module', '-e', script], {
      ...nobody,
      encoding: 'utf8',
    });
    chmodSync(folder, 0o755);
    expect(run.stdout.trim()).toBe('read-only');
  });
});

describe('power failure', () => {
  it('keeps every confirmed change completely', () => {
    const path = tempBookPath();
    const script = `
      import { openRecordBook } from ${JSON.stringify(join(import.meta.dirname, '../../../src/book/book.ts'))};
      const book = openRecordBook(${JSON.stringify(path)}, new Date());
      for (let i = 0; ; i++) {
        book.change(() => {
          const fields = { phone: '', email: '', address: '', licence: '', refusesPooling: false };
          book.hunters.add({ name: 'first ' + i, ...fields }, 'now');
          book.hunters.add({ name: 'second ' + i, ...fields }, 'now');
        });
        process.stdout.write(i + '\\n');
        if (i === 150) process.kill(process.pid, 'SIGKILL');
      }`;
    const run = spawnSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' });
    expect(run.signal).toBe('SIGKILL');
    const confirmed = run.stdout.trim().split('\n').length;
    expect(confirmed).toBe(151);
    const db = openBook(path, NOW);
    expect(db.prepare("SELECT count(*) FROM hunter WHERE name LIKE 'first %'").pluck().get()).toBe(confirmed);
    expect(db.prepare("SELECT count(*) FROM hunter WHERE name LIKE 'second %'").pluck().get()).toBe(
      confirmed,
    );
    closeBook(db);
  });
});

describe('a book restored beside a stale log', () => {
  it('is still read completely', () => {
    const path = tempBookPath();
    const book = openRecordBook(path, NOW);
    book.change(() => book.settings.put('shopName', 'Kept'));
    const copyFolder = join(dirname(path), 'copy');
    mkdirSync(copyFolder);
    book.close();
    copyFileSync(path, join(copyFolder, 'shop.gambrel'));
    const copy = openRecordBook(join(copyFolder, 'shop.gambrel'), NOW);
    expect(copy.settings.all()).toMatchObject({ shopName: 'Kept' });
    copy.close();
  });
});

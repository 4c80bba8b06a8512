import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { backupFolder, backUp, listBackups } from '../../../src/book/file/backup.ts';
import { checkCopy } from '../../../src/book/file/backup-check.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { BookError } from '../../../src/book/file/book-error.ts';
import { tempBookPath } from '../temp-book.ts';

const NOW = new Date('2026-10-01T12:00:00Z');

function bookWithHunters(path: string, count: number) {
  const book = openRecordBook(path, NOW);
  book.change(() => {
    for (let i = 0; i < count; i++)
      book.hunters.add(
        { name: `Hunter ${i}`, phone: '', email: '', address: '', licence: '', refusesPooling: false },
        NOW.toISOString(),
      );
  });
  return book;
}

describe('backup', () => {
  it('contains everything in the open book, also what is only in the log', () => {
    const book = bookWithHunters(tempBookPath(), 40);
    const { path } = backUp(book.db, book.path, NOW);
    const copy = openRecordBook(path, NOW);
    expect(copy.db.prepare('SELECT count(*) FROM hunter').pluck().get()).toBe(40);
    copy.close();
    book.close();
  });

  it('is listed newest first by the moment in its name, and two in one second have different names', () => {
    const book = bookWithHunters(tempBookPath(), 1);
    const first = backUp(book.db, book.path, NOW);
    const second = backUp(book.db, book.path, NOW);
    const later = backUp(book.db, book.path, new Date('2026-10-02T08:30:00Z'));
    expect(new Set([first.path, second.path, later.path]).size).toBe(3);
    const listed = listBackups(book.path);
    expect(listed.map(({ at }) => at)).toEqual([
      '2026-10-02T08:30:00Z',
      '2026-10-01T12:00:00Z',
      '2026-10-01T12:00:00Z',
    ]);
    for (const { path } of listed) expect(checkCopy(path, null).lastEntry).toBeNull();
    book.close();
  });

  it('fails verification when it is damaged', () => {
    const book = bookWithHunters(tempBookPath(), 600);
    const { path } = backUp(book.db, book.path, NOW);
    const bytes = readFileSync(path);
    bytes.fill(0x5a, 4096 * 2, 4096 * 6);
    writeFileSync(path, bytes);
    expect(() => checkCopy(path, null)).toThrow(/book backup/);
    writeFileSync(path, 'no database at all, only words '.repeat(200));
    expect(() => checkCopy(path, null)).toThrow(/book backup/);
    book.close();
  });

  it('leaves no partial file where it cannot be written', () => {
    const book = bookWithHunters(tempBookPath(), 1);
    const folder = backupFolder(book.path);
    writeFileSync(folder, 'a file stands where the folder should be');
    expect(() => backUp(book.db, book.path, NOW)).toThrow();
    expect(readdirSync(dirname(book.path)).filter((name) => name.endsWith('.part'))).toEqual([]);
    expect(existsSync(book.path)).toBe(true);
    book.close();
  });

  it('refuses to run inside a transaction', () => {
    const book = bookWithHunters(tempBookPath(), 1);
    expect(() => book.change(() => backUp(book.db, book.path, NOW))).toThrow(BookError);
    expect(listBackups(book.path)).toEqual([]);
    book.close();
  });
});

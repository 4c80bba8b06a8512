/** A book is worked in only when it is built as its version says, object by object, wherever it comes from. */
import { execFileSync } from 'node:child_process';
import {
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { backUp, backupFolder, type Backup } from '../../../src/book/file/backup.ts';
import { openRecordBook } from '../../../src/book/book.ts';
import { expectBook } from '../../../src/book/file/expect-book.ts';
import { BOOK_VERSION, MIGRATIONS } from '../../../src/book/migrations/index.ts';
import { openFile } from '../../../src/book/file/open-file.ts';
import { openBook } from '../../../src/book/file/open.ts';
import { restoreBackup, tryBackup } from '../../../src/book/file/restore.ts';
import { schemaDifference } from '../../../src/book/file/schema-difference.ts';
import { tablesOf } from '../../../src/book/file/tables.ts';
import { BookError } from '../../../src/book/file/book-error.ts';
import { ALTERATIONS, alterBook } from '../altered-book.ts';
import { tempBookPath } from '../temp-book.ts';

const NOW = new Date('2026-10-01T12:00:00Z');
const HUNTER = { phone: '', email: '', address: '', licence: '', refusesPooling: false };
const VERSIONS = join(import.meta.dirname, '../versions');
const stored = readdirSync(VERSIONS).filter((name) => /^version-\d+\.sql$/.test(name));

function storedBook(file: string): string {
  const path = tempBookPath();
  const db = new Database(path);
  db.exec(readFileSync(join(VERSIONS, file), 'utf8'));
  db.close();
  return path;
}

let made: { path: string; backup: Backup } | undefined;

/** A copy of a book of one hunter, and of its backup; made once, for making one takes long. */
function bookWithBackup() {
  made ??= makeBook();
  const path = tempBookPath();
  copyFileSync(made.path, path);
  const backup = { ...made.backup, path: join(backupFolder(path), basename(made.backup.path)) };
  mkdirSync(backupFolder(path));
  copyFileSync(made.backup.path, backup.path);
  return { path, backup };
}

function makeBook() {
  const path = tempBookPath();
  const book = openRecordBook(path, NOW);
  book.change(() => book.hunters.add({ name: 'Dana Whitlock', ...HUNTER }, NOW.toISOString()));
  const backup = backUp(book.db, path, NOW);
  book.close();
  return { path, backup };
}

function troubleIn(work: () => unknown): BookError {
  try {
    work();
  } catch (error) {
    if (error instanceof BookError) return error;
    throw error;
  }
  throw new Error('no trouble');
}

describe.each(stored)('the book of %s', (file) => {
  it('has the schema of its version, before and after migration', () => {
    const path = storedBook(file);
    const old = new Database(path);
    expect(schemaDifference(old, Number(old.pragma('user_version', { simple: true })))).toBeNull();
    old.close();
    const book = openRecordBook(path, NOW);
    book.db.exec('ANALYZE');
    expect(schemaDifference(book.db, BOOK_VERSION)).toBeNull();
    book.close();
    const again = openRecordBook(path, NOW);
    expect(schemaDifference(again.db, BOOK_VERSION)).toBeNull();
    again.close();
  });
});

/** Versions that turn rows and leave every object as it was. */
const SAME_OBJECTS: readonly number[] = [30];

it('distinguishes every version from every other', () => {
  const db = new Database(':memory:');
  const schemas = MIGRATIONS.map((step, at) => {
    db.exec(step);
    expect(schemaDifference(db, at + 1)).toBeNull();
    for (const other of [at, at + 2]) {
      if (other < 1 || other > MIGRATIONS.length) continue;
      const same = SAME_OBJECTS.includes(Math.max(other, at + 1));
      expect(schemaDifference(db, other) === null, `version ${at + 1} as version ${other}`).toBe(same);
    }
    return JSON.stringify(db.prepare('SELECT type, name, sql FROM sqlite_schema ORDER BY 1, 2').all());
  });
  db.close();
  expect(new Set(schemas).size).toBe(MIGRATIONS.length - SAME_OBJECTS.length);
});

describe.each(ALTERATIONS)('a book with $title', (alteration) => {
  it('is refused as a backup, by trial and by restore, and the difference is reported', () => {
    const { path, backup } = bookWithBackup();
    alterBook(backup.path, alteration);
    const before = readFileSync(path);
    for (const take of [() => tryBackup(path, backup, NOW), () => restoreBackup(path, backup, NOW)]) {
      const trouble = troubleIn(take);
      expect(trouble).toMatchObject({ code: 'altered', path: backup.path, difference: alteration.named });
    }
    expect(readFileSync(path).equals(before)).toBe(true);
    expect(readdirSync(dirname(path)).sort()).toEqual(['shop backups', 'shop.gambrel']);
  });

  it('is refused in the place of the book, and not changed', () => {
    const { path } = bookWithBackup();
    alterBook(path, alteration);
    const before = readFileSync(path);
    expect(troubleIn(() => openBook(path, NOW))).toMatchObject({
      code: 'altered',
      difference: alteration.named,
    });
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it('gives its records to a clean book', () => {
    const { path } = bookWithBackup();
    alterBook(path, alteration);
    restoreBackup(path, { path, locked: false }, NOW, { recordsOnly: true });
    const book = openRecordBook(path, NOW, true);
    expect(book.db.prepare('SELECT name, note FROM hunter').all()).toEqual([
      { name: 'Dana Whitlock', note: '' },
    ]);
    expect(book.hunters.find('whit').map(({ name }) => name)).toEqual(['Dana Whitlock']);
    book.close();
  });
});

/** All rows of a book of today, table by table; the identity is drawn anew for a book that has none. */
function recordsOf(db: Database.Database): Record<string, unknown[]> {
  const tables = tablesOf(db).filter(({ name }) => name !== 'season_taught');
  return Object.fromEntries(
    tables.map(({ name, columns }) => {
      const order = columns.map((_, at) => at + 1).join();
      const where = name === 'setting' ? "WHERE key <> 'bookIdentity'" : '';
      return [name, db.prepare(`SELECT * FROM "${name}" ${where} ORDER BY ${order}`).all()];
    }),
  );
}

describe('the records of a book with a modified schema', () => {
  it.each(stored)('are taken over whole into a clean book, from %s with a planted trigger', (file) => {
    const path = storedBook(file);
    const wanted = openRecordBook(storedBook(file), NOW);
    const rows = recordsOf(wanted.db);
    wanted.close();
    const before = new Database(path);
    before.exec('CREATE TRIGGER spy AFTER INSERT ON setting BEGIN DELETE FROM payment; END');
    before.close();
    restoreBackup(path, { path, locked: false }, NOW, { recordsOnly: true });
    const book = openRecordBook(path, NOW);
    expect(schemaDifference(book.db, BOOK_VERSION)).toBeNull();
    expect(recordsOf(book.db)).toEqual(rows);
    book.close();
  });
});

describe('another file in the place of a book', () => {
  const at = (make: (path: string) => void): string => {
    const path = tempBookPath();
    make(path);
    return path;
  };
  it.each<[string, (path: string) => void]>([
    ['a folder', (path) => mkdirSync(path)],
    ['a pipe', (path) => void execFileSync('mkfifo', [path])],
    ['a device', (path) => symlinkSync('/dev/zero', path)],
  ])('is told and not waited for when it is %s', (_, make) => {
    const path = at(make);
    expect(troubleIn(() => openBook(path, NOW)).code).toBe('foreign');
    expect(troubleIn(() => tryBackup(tempBookPath(), { path, locked: false }, NOW)).code).toBe('backup');
  });

  it("is refused when its application id is another program's", () => {
    const { path, backup } = bookWithBackup();
    for (const file of [path, backup.path]) {
      const db = new Database(file);
      db.pragma('application_id = 1');
      db.close();
    }
    expect(troubleIn(() => openBook(path, NOW)).code).toBe('foreign');
    expect(troubleIn(() => tryBackup(path, backup, NOW)).code).toBe('backup');
  });

  it('is a loss when all its tables were dropped and there are backups', () => {
    const { path } = bookWithBackup();
    rmSync(path);
    const empty = new Database(path);
    empty.pragma('user_version = 0');
    empty.exec('CREATE TABLE a (x); DROP TABLE a; VACUUM');
    empty.close();
    expect(troubleIn(() => expectBook(path)).code).toBe('damaged');
  });

  it('does not fill the disk when it claims to be larger than that', () => {
    const { path, backup } = bookWithBackup();
    truncateSync(backup.path, 2 ** 43);
    expect(troubleIn(() => tryBackup(path, backup, NOW)).code).toBe('full');
    expect(readdirSync(dirname(path)).sort()).toEqual(['shop backups', 'shop.gambrel']);
  });

  it('opens with pages of any size', () => {
    const { path } = bookWithBackup();
    const db = new Database(path);
    db.pragma('journal_mode = DELETE');
    db.pragma('page_size = 65536');
    db.exec('VACUUM');
    db.close();
    const book = openRecordBook(path, NOW);
    expect(book.db.prepare('SELECT name FROM hunter').pluck().get()).toBe('Dana Whitlock');
    book.close();
  });
});

describe('another file beside a book', () => {
  it.each([0, 20, 5000])('a log cut to %d bytes costs nothing that was written into the file', (bytes) => {
    const { path } = bookWithBackup();
    const other = new Database(path);
    other.pragma('wal_autocheckpoint = 0');
    other.exec("INSERT INTO setting VALUES ('late', '1')");
    const [main, log] = [readFileSync(path), readFileSync(`${path}-wal`)];
    other.close();
    writeFileSync(path, main);
    writeFileSync(`${path}-wal`, log.subarray(0, bytes));
    const book = openRecordBook(path, NOW);
    expect(book.db.prepare('SELECT name FROM hunter').pluck().get()).toBe('Dana Whitlock');
    expect(book.db.pragma('integrity_check', { simple: true })).toBe('ok');
    book.close();
  });

  it.each(['-wal', '-shm', '-journal'])(
    'a link in the place of its %s is never written through',
    (ending) => {
      const { path } = bookWithBackup();
      const diary = join(dirname(path), 'diary.txt');
      writeFileSync(diary, 'mine');
      symlinkSync(diary, path + ending);
      expect(troubleIn(() => openBook(path, NOW))).toMatchObject({ code: 'link', path: path + ending });
      expect(readFileSync(diary, 'utf8')).toBe('mine');
    },
  );

  it("a pipe in the place of a backup's log does not block", () => {
    const { path, backup } = bookWithBackup();
    execFileSync('mkfifo', [`${backup.path}-wal`]);
    expect(troubleIn(() => tryBackup(path, backup, NOW)).code).toBe('backup');
  });
});

it('calls no function with side effects from the schema of a file', () => {
  const { path } = bookWithBackup();
  const file = new Database(path);
  file.exec('CREATE VIEW spy AS SELECT told() AS x');
  file.close();
  const db = openFile(path, { readonly: true });
  db.function('told', () => 'called');
  expect(() => db.prepare('SELECT x FROM spy').get()).toThrow(/unsafe use/);
  db.close();
});

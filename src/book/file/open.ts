import { accessSync, constants, existsSync } from 'node:fs';
import { dirname } from 'node:path';
import { backUp } from './backup.ts';
import { ensureIdentity } from './book-identity.ts';
import type { Db } from './db.ts';
import { addFeedTriggers, isFed, logEverything, removeFeedTriggers } from '../feed/feed-schema.ts';
import { APPLICATION_ID, BOOK_VERSION, MIGRATIONS } from '../migrations/index.ts';
import { openFile } from './open-file.ts';
import { makeFolder } from './private-files.ts';
import { schemaDifference, versionBuilt } from './schema-difference.ts';
import { restrictBackups, restrictBook } from './restrict-permissions.ts';
import { BookError, bookErrorOf } from './book-error.ts';

/**
 * Opens the record book, or creates it: file and folder → application id → version → schema → `quick_check` →
 * verified backup → all migrations in one transaction → foreign-key check → trial read and write. Stops at the
 * first error and leaves the file unchanged. `relaxed` trades durability for speed, makes no backup, and is only
 * for temporary books. `checked` skips `quick_check`, which reads the whole file, when this program has it open
 * already.
 * @throws BookError
 */
export function openBook(path: string, now: Date, relaxed = false, checked = false): Db {
  let db: Db | undefined;
  try {
    reachable(path);
    db = openFile(path);
    const fresh = isEmpty(db);
    restrictBook(path); // before a log exists, which inherits the mode of the book
    if (!relaxed) restrictBackups(path);
    if (!fresh) (checked ? checkBuilt : checkOurs)(db, path);
    setDurability(db, relaxed);
    migrate(db, path, fresh || relaxed ? null : now);
    if (db.pragma('foreign_keys', { simple: true }) !== 1)
      throw new BookError('damaged', path, 'foreign keys are off');
    tryWriting(db);
    if (!relaxed) ensureIdentity(db);
    return db;
  } catch (error) {
    db?.close();
    throw bookErrorOf(error, path);
  }
}

/**
 * Checks a book without opening it for writing.
 * @throws BookError `foreign`, `newer`, `altered`, `damaged`, or the reason why it cannot be read
 */
export function inspectBook(path: string): void {
  let db: Db | undefined;
  try {
    db = openFile(path, { readonly: true, fileMustExist: true });
    checkOurs(db, path);
  } catch (error) {
    throw bookErrorOf(error, path);
  } finally {
    db?.close();
  }
}

/**
 * Checkpoints the log into the file and closes the connection. On a full disk the log stays beside the file, and
 * nothing is lost.
 */
export function closeBook(db: Db): void {
  if (!db.open) return;
  try {
    db.pragma('optimize');
    db.pragma('wal_checkpoint(TRUNCATE)');
  } catch (error) {
    if (bookErrorOf(error, db.name).code !== 'full') throw error;
  } finally {
    db.close();
  }
}

/** A book whose log cannot be shared opens and reads, but would refuse the first write. */
function tryWriting(db: Db): void {
  db.transaction(() => db.prepare('SELECT count(*) FROM setting').get()).immediate();
}

function reachable(path: string): void {
  const folder = dirname(path);
  makeFolder(folder);
  accessSync(folder, constants.W_OK);
  if (existsSync(path)) accessSync(path, constants.R_OK | constants.W_OK);
}

/** A file that was just created, or whose creation was interrupted: not even the application id is set. */
function isEmpty(db: Db): boolean {
  return (
    db.pragma('application_id', { simple: true }) === 0 &&
    db.pragma('user_version', { simple: true }) === 0 &&
    db.prepare('SELECT count(*) FROM sqlite_schema').pluck().get() === 0
  );
}

/**
 * Whether a file is a book of ours, with the schema of its version, and readable. The schema is checked before
 * anything is read through it.
 * @returns its version
 * @throws BookError `foreign`, `newer`, `altered`, `damaged`
 */
function checkOurs(db: Db, path: string): number {
  const version = checkBuilt(db, path);
  const found = db.pragma('quick_check(1)', { simple: true });
  if (found !== 'ok') throw new BookError('damaged', path, String(found));
  return version;
}

/** The part of `checkOurs` that reads only the application id, version and schema. */
export function checkBuilt(db: Db, path: string): number {
  if (db.pragma('application_id', { simple: true }) !== APPLICATION_ID) throw new BookError('foreign', path);
  const version = Number(db.pragma('user_version', { simple: true }));
  if (version > BOOK_VERSION) throw new BookError('newer', path, `version ${version}`);
  const difference = version < 1 ? null : schemaDifference(db, version);
  if (version < 1 || (difference && versionBuilt(db) !== null))
    throw new BookError('altered', path, `version ${version}`);
  if (difference) throw new BookError('altered', path, Object.values(difference).join(' '), difference);
  return version;
}

/** SQLite does not store `synchronous`, so it is set and verified at every opening. */
function setDurability(db: Db, relaxed: boolean): void {
  db.pragma('journal_mode = WAL');
  db.pragma(`synchronous = ${relaxed ? 'OFF' : 'FULL'}`);
  db.pragma('foreign_keys = ON');
  // Otherwise INSERT OR REPLACE would bypass the triggers that refuse deletes.
  db.pragma('recursive_triggers = ON');
  if (db.pragma('journal_mode', { simple: true }) !== 'wal')
    throw new BookError('folder', db.name, 'no write-ahead log here');
  if (!relaxed && db.pragma('synchronous', { simple: true }) !== 2)
    throw new BookError('damaged', db.name, 'synchronous');
}

/** @param backUpAt the moment for the backup before the migration, or null for none */
function migrate(db: Db, path: string, backUpAt: Date | null): void {
  const from = Number(db.pragma('user_version', { simple: true }));
  if (from === BOOK_VERSION) return;
  if (backUpAt) backUp(db, path, backUpAt, BOOK_VERSION);
  try {
    db.transaction(() => {
      const fed = isFed(db);
      if (fed) {
        logEverything(db); // also what a step takes away
        removeFeedTriggers(db);
      }
      for (const step of MIGRATIONS.slice(from)) db.exec(step);
      if (fed) {
        addFeedTriggers(db);
        logEverything(db); // a step may rewrite any row
      }
      db.pragma(`application_id = ${APPLICATION_ID}`);
      db.pragma(`user_version = ${BOOK_VERSION}`);
      const broken = db.pragma('foreign_key_check') as unknown[];
      if (broken.length > 0) throw new BookError('migration', path, `${broken.length} loose ends`);
    }).immediate();
  } catch (error) {
    throw error instanceof BookError ? error : new BookError('migration', path, String(error));
  }
}

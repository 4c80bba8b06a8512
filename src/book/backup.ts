import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import Database from 'better-sqlite3';
import { APPLICATION_ID } from './migrations/index.ts';
import { BookTrouble } from './trouble.ts';

export interface Backup {
  path: string;
  /** UTC moment in its name. */
  at: string;
  bytes: number;
}

/** Tables whose row counts and weights must be the same in the copy. */
const COUNTED = ['hunter', 'animal', 'weighing', 'weighing_void', 'fat_movement', 'bill', 'payment', 'audit'];

/** Backups lie beside the book in a folder of their own. */
export function backupFolder(bookPath: string): string {
  return join(dirname(bookPath), `${basename(bookPath, '.gambrel')} backups`);
}

/**
 * Copies the open book with `VACUUM INTO` to a `.part` file, opens the copy read-only, checks it whole
 * (`integrity_check`, row counts, total of weights), flushes it to disk and only then gives it its name.
 * @throws BookTrouble `backup` when the copy is not as good as the book; the bad copy is removed
 */
export function backUp(
  db: Database.Database,
  bookPath: string,
  at: Date,
  folder = backupFolder(bookPath),
): Backup {
  mkdirSync(folder, { recursive: true });
  const moment = at.toISOString();
  let path = join(
    folder,
    `${basename(bookPath, '.gambrel')} ${moment.slice(0, 19).replaceAll(':', '-')}.gambrel`,
  );
  for (let n = 2; existsSync(path); n++) path = path.replace(/( \(\d+\))?\.gambrel$/, ` (${n}).gambrel`);
  const part = `${path}.part`;
  rmSync(part, { force: true });
  try {
    db.prepare('VACUUM INTO ?').run(part);
    checkCopy(part, totals(db));
    flush(part);
    renameSync(part, path);
  } catch (error) {
    rmSync(part, { force: true });
    throw error instanceof BookTrouble
      ? error
      : new BookTrouble('backup', path, error instanceof Error ? error.message : String(error));
  }
  return { path, at: moment, bytes: statSync(path).size };
}

/** Finished backups of a book, newest first. */
export function listBackups(bookPath: string, folder = backupFolder(bookPath)): Backup[] {
  if (!existsSync(folder)) return [];
  const start = `${basename(bookPath, '.gambrel')} `;
  return readdirSync(folder)
    .map((name) => ({
      name,
      moment: /(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)( \(\d+\))?\.gambrel$/.exec(name),
    }))
    .filter(({ name, moment }) => name.startsWith(start) && moment)
    .sort((a, b) => (a.name < b.name ? 1 : -1))
    .map(({ name, moment }) => ({
      path: join(folder, name),
      at: `${moment?.[1]}T${moment?.[2]}:${moment?.[3]}:${moment?.[4]}Z`,
      bytes: statSync(join(folder, name)).size,
    }));
}

/** Verifies a finished copy on its own: ours, and whole. Used before a backup is offered for restore. */
export function isGoodBackup(path: string): boolean {
  try {
    checkCopy(path, null);
    return true;
  } catch (error) {
    if (error instanceof BookTrouble || error instanceof Database.SqliteError) return false;
    throw error;
  }
}

function checkCopy(path: string, wanted: string | null): void {
  const copy = new Database(path, { readonly: true, fileMustExist: true });
  try {
    if (copy.pragma('application_id', { simple: true }) !== APPLICATION_ID)
      throw new BookTrouble('backup', path, 'mark');
    const found = copy.pragma('integrity_check(1)', { simple: true });
    if (found !== 'ok') throw new BookTrouble('backup', path, String(found));
    if (wanted !== null && totals(copy) !== wanted)
      throw new BookTrouble('backup', path, 'rows differ from the book');
  } finally {
    copy.close();
  }
}

/** Row counts and summed weights as one text, to compare a copy with its original; tables of later versions may be missing. */
function totals(db: Database.Database): string {
  const present = new Set(db.prepare("SELECT name FROM sqlite_schema WHERE type = 'table'").pluck().all());
  const counts = COUNTED.filter((table) => present.has(table)).map(
    (table) => `${table} ${db.prepare(`SELECT count(*) FROM ${table}`).pluck().get()}`,
  );
  if (present.has('weighing'))
    counts.push(`grams ${db.prepare('SELECT total(grams) FROM weighing').pluck().get()}`);
  return counts.join(', ');
}

function flush(path: string): void {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

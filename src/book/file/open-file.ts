/** Opens a database file of unknown origin. */
import { lstatSync, realpathSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { LOG_ENDINGS } from './partial-files.ts';
import { BookError } from './book-error.ts';

/**
 * Opens the database file at `path` by SQLite's "Defense Against The Dark Arts" for files of unknown origin
 * (https://www.sqlite.org/security.html, section 2.2, from memory): functions with side effects cannot be called
 * from its schema, and each cell is checked before it is read. Defensive mode is the default of better-sqlite3; it
 * also prevents writes to the schema table.
 * @throws BookError `foreign` for anything but a file (a folder, a pipe, a device), `folder` or `link` for anything
 *   but a file in place of its log
 */
export function openFile(path: string, options: Database.Options = {}): Database.Database {
  onlyFiles(path);
  const db = new Database(path, { timeout: 5000, ...options });
  try {
    db.pragma('trusted_schema = OFF');
    db.pragma('cell_size_check = ON');
    return db;
  } catch (error) {
    db.close();
    throw error;
  }
}

/** A pipe would block forever, and a link in place of the log would have its target overwritten. */
function onlyFiles(path: string): void {
  const found = statSync(path, { throwIfNoEntry: false });
  if (!found) return;
  if (!found.isFile()) throw new BookError('foreign', path, 'no file');
  const real = realpathSync(path);
  for (const ending of LOG_ENDINGS) {
    const beside = lstatSync(real + ending, { throwIfNoEntry: false });
    if (beside?.isSymbolicLink()) throw new BookError('link', real + ending);
    if (beside && !beside.isFile()) throw new BookError('folder', real + ending, 'no file');
  }
}

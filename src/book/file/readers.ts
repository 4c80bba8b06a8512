/** Long readings of an open book, each over a connection of its own, so that the desk writes on meanwhile. */
import { endReading } from './each-row.ts';
import type { Db } from './db.ts';
import { openFile } from './open-file.ts';
import { bookErrorOf } from './book-error.ts';

export function snapshotReaders(path: string) {
  const open = new Set<Db>();
  const end = (db: Db): void => {
    open.delete(db);
    endReading(db);
    db.close();
  };
  return {
    /**
     * Has `work` read the book as it stands now, whatever is written while it goes on. The connection cannot write, and
     * whatever becomes of it the book's own stays as it is.
     * @throws Error when the book was closed meanwhile: what was read is not whole
     */
    async read<T>(work: (db: Db) => T | Promise<T>): Promise<T> {
      const db = snapshotOf(path);
      open.add(db);
      try {
        const read = await work(db);
        if (!db.open) throw new Error('the book was closed while it was read');
        return read;
      } finally {
        if (db.open) end(db);
      }
    },
    /** Ends all that is still going on: a book is one whole file only once nobody reads it. */
    close: (): void => [...open].forEach(end),
  };
}

function snapshotOf(path: string): Db {
  let db: Db | undefined;
  try {
    db = openFile(path, { readonly: true, fileMustExist: true });
    db.exec('BEGIN');
    db.prepare('SELECT count(*) FROM setting').get();
    return db;
  } catch (error) {
    db?.close();
    throw bookErrorOf(error, path);
  }
}

/** Long reads of an open book, each on its own connection, so that writes continue meanwhile. */
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
     * Runs `work` on a snapshot of the book, whatever is written meanwhile. The connection is read-only and
     * separate from the book's own.
     * @throws Error when the book was closed meanwhile: the result is incomplete
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
    /** Ends all reads: a book is a single file only without readers. */
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

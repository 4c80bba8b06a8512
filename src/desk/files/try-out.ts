/** Opens a copy of a backup, as a restore would, to inspect its contents. */
import type { BackupContents } from '../../book/file/backup-check.ts';
import type { Source } from '../../book/file/books-aside.ts';
import { openRecordBook } from '../../book/book.ts';
import { tryBackup, type Opening } from '../../book/file/restore.ts';
import { createSession } from '../session/session.ts';
import { shopView } from '../shop/shop.ts';

/**
 * Performs the steps of opening on a copy of the backup, up to the first query of a window. Changes nothing.
 * @returns its contents
 * @throws BookError
 */
export function tryOut(bookPath: string, source: Source, now: Date, opening: Opening): BackupContents {
  return tryBackup(bookPath, source, now, opening, (path) => {
    const book = openRecordBook(path, now, true);
    try {
      shopView(
        createSession({
          book,
          demo: false,
          clock: () => now,
          host: { openDemo: unavailable, leaveDemo: unavailable },
        }),
      );
    } finally {
      book.close();
    }
  });
}

function unavailable(): never {
  throw new Error('a trial opens no other book');
}

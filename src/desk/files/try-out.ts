/** Opens a copy of a backup, as a restore would, to inspect its contents. */
import type { BackupContents } from '../../book/file/backup-check.ts';
import type { Source } from '../../book/file/books-aside.ts';
import { openRecordBook } from '../../book/book.ts';
import { tryBackup, type Opening } from '../../book/file/restore.ts';
import { photosLacking } from '../session/photo-keeping.ts';
import { createSession } from '../session/session.ts';
import { shopView } from '../shop/shop.ts';

/**
 * Performs the steps of opening on a copy of the backup, up to the first query of a window. Changes nothing.
 * @returns its contents, and how many of its photographs a restore would lack
 * @throws BookError
 */
export function tryOut(
  bookPath: string,
  source: Source,
  now: Date,
  opening: Opening,
): BackupContents & { missingPhotos: number } {
  let missing = 0;
  const contents = tryBackup(bookPath, source, now, opening, (path) => {
    const book = openRecordBook(path, now, true);
    try {
      missing = photosLacking(book, bookPath, source);
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
  return { ...contents, missingPhotos: missing };
}

function unavailable(): never {
  throw new Error('a trial opens no other book');
}

/** Books of tests that are fed. */
import { openRecordBook, type Book } from '../../src/book/book.ts';
import { fullBook } from '../book/full-book.ts';

export const NOW = new Date('2026-12-01T12:00:00Z');

/** A book with a row in every table, or the one at `path`, whose changes are logged. */
export function fedBook(path = fullBook()): Book {
  const book = openRecordBook(path, NOW);
  if (!book.feed.isOn()) book.change(() => book.feed.begin());
  return book;
}

/** A change that anybody would make. */
export function put(book: Book, value: unknown, key = 'pickupMessage'): void {
  book.change(() => book.settings.put(key, value));
}

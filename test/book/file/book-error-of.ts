import { BookError } from '../../../src/book/file/book-error.ts';

/** The code of the trouble that `work` runs into, or `none`. */
export function troubleOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof BookError) return error.code;
    throw error;
  }
  return 'none';
}

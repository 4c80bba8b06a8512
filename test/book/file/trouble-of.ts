import { BookTrouble } from '../../../src/book/file/trouble.ts';

/** The code of the trouble that `work` runs into, or `none`. */
export function troubleOf(work: () => unknown): string {
  try {
    work();
  } catch (error) {
    if (error instanceof BookTrouble) return error.code;
    throw error;
  }
  return 'none';
}

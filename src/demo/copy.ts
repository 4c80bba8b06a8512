import { copyFileSync, renameSync, statSync } from 'node:fs';
import { openRecordBook } from '../book/book.ts';
import { createPartial, partialPath, removePartial } from '../book/file/partial-files.ts';
import { BookError } from '../book/file/book-error.ts';
import type { DemoBook } from '../desk/door.ts';
import { DEMO_NOW, fillDemo } from './season.ts';

/** The demo for a desk to open; `keptAt` as in `copyDemo`. */
export function demoBook(keptAt?: string): DemoBook {
  return { now: DEMO_NOW, copyTo: (path) => copyDemo(path, keptAt) };
}

/**
 * Puts a book with the invented seasons at `path`. Made once it is copied from `keptAt`, which belongs to one build of the
 * program; where nothing can be kept there, it is made anew each time.
 */
export async function copyDemo(path: string, keptAt?: string): Promise<void> {
  if (keptAt !== undefined && copied(keptAt, path)) return;
  const book = openRecordBook(path, DEMO_NOW, true);
  await fillDemo(book);
  book.close();
  if (keptAt !== undefined) keep(path, keptAt);
}

/** Whether there was a kept demo that opens; what is left of another is removed from `path`. */
function copied(keptAt: string, path: string): boolean {
  if (!statSync(keptAt, { throwIfNoEntry: false })?.isFile()) return false;
  copyFileSync(keptAt, path);
  try {
    openRecordBook(path, DEMO_NOW, true).close();
    return true;
  } catch (error) {
    if (!(error instanceof BookError)) throw error;
    removePartial(path);
    return false;
  }
}

function keep(path: string, keptAt: string): void {
  const part = partialPath(keptAt);
  try {
    createPartial(part);
    copyFileSync(path, part);
    renameSync(part, keptAt);
  } catch {
    // An installed program's folder is not for writing: the next demo is made anew, and nothing is lost.
    removePartial(part);
  }
}

import { copyFileSync, cpSync, renameSync, statSync } from 'node:fs';
import { openRecordBook } from '../book/book.ts';
import { createPartial, partialPath, removePartial } from '../book/file/partial-files.ts';
import { BookError } from '../book/file/book-error.ts';
import { photoFolder } from '../book/file/photos/files.ts';
import type { DemoBook } from '../desk/door.ts';
import { bringPhotographs } from './photographs.ts';
import { DEMO_NOW, fillDemo } from './season.ts';

/** The demo book for a desk; `keptAt` as in `copyDemo`. */
export function demoBook(keptAt?: string): DemoBook {
  return { now: DEMO_NOW, copyTo: (path) => copyDemo(path, keptAt) };
}

/**
 * Creates the demo book at `path`. It is generated once and then copied from the cache `keptAt`, which belongs to
 * one build of the program; without a writable cache it is generated each time.
 */
export async function copyDemo(path: string, keptAt?: string): Promise<void> {
  if (keptAt !== undefined && copied(keptAt, path)) return;
  const book = openRecordBook(path, DEMO_NOW, true);
  await fillDemo(book);
  book.close();
  if (keptAt !== undefined) keep(path, keptAt);
}

/** Copies the cached demo if it opens; otherwise deletes any remains at `path`. */
function copied(keptAt: string, path: string): boolean {
  if (!statSync(keptAt, { throwIfNoEntry: false })?.isFile()) return false;
  copyFileSync(keptAt, path);
  try {
    const book = openRecordBook(path, DEMO_NOW, true);
    bringPhotographs(book, keptAt);
    book.close();
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
    cpSync(photoFolder(path), photoFolder(keptAt), { recursive: true });
    renameSync(part, keptAt);
  } catch {
    // An installed program's folder may be read-only: the next demo is then generated again.
    removePartial(part);
  }
}

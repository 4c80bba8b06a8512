import { copyFileSync, existsSync, renameSync, rmSync } from 'node:fs';
import { openRecordBook } from '../../book/book.ts';
import type { DemoBook } from '../door.ts';
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
  if (keptAt !== undefined && existsSync(keptAt)) return copyFileSync(keptAt, path);
  const book = openRecordBook(path, DEMO_NOW, true);
  await fillDemo(book);
  book.close();
  if (keptAt !== undefined) keep(path, keptAt);
}

function keep(path: string, keptAt: string): void {
  const part = `${keptAt}.${process.pid}.part`;
  try {
    copyFileSync(path, part);
    renameSync(part, keptAt);
  } catch {
    // An installed program's folder is not for writing: the next demo is made anew, and nothing is lost.
    rmSync(part, { force: true });
  }
}

import { mkdtempSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject } from 'vitest';

/** Folders of the test file that runs now. Its worker may have run others before. */
let current: { file: string | undefined; folders: string[] } = { file: undefined, folders: [] };

/**
 * A path for a book in a fresh folder. All tests of a file may share a book, so the folders of a file are removed when the
 * next file of the worker asks for one, and the last ones with the run's folder (`run-folder.ts`).
 */
export function tempBookPath(name = 'shop.gambrel'): string {
  const file = expect.getState().testPath;
  if (file !== current.file) {
    for (const folder of current.folders) rmSync(folder, { recursive: true, force: true });
    current = { file, folders: [] };
  }
  const folder = mkdtempSync(`${inject('runFolder')}-test-`);
  current.folders.push(folder);
  return join(folder, name);
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

const folders: string[] = [];

// Only then: a book may serve all tests of a file, and a desk says so when its book goes away.
afterAll(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A path for a book in a fresh folder that goes when the tests of the file have ended. */
export function tempBookPath(name = 'shop.gambrel'): string {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-test-'));
  folders.push(folder);
  return join(folder, name);
}

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach } from 'vitest';

const folders: string[] = [];

afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A path for a book in a fresh folder that goes when the test ends. */
export function tempBookPath(name = 'shop.gambrel'): string {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-test-'));
  folders.push(folder);
  return join(folder, name);
}

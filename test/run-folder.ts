/** A folder for what the tests of one run share; it goes when the run has ended. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  export interface ProvidedContext {
    runFolder: string;
  }
}

export function setup({ provide }: TestProject): () => void {
  const folder = mkdtempSync(join(tmpdir(), 'gambrel-run-'));
  provide('runFolder', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}

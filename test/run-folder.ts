/** A folder for what the tests of one run share. It is removed when the run has ended, as are those whose names begin with its name. */
import { globSync, mkdtempSync, rmSync } from 'node:fs';
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
  return () => {
    for (const one of [folder, ...globSync(`${folder}-*`)]) rmSync(one, { recursive: true, force: true });
  };
}

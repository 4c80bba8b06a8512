/** Packs the program once for all smoke tests. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { packReal } from './packed.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** The packed program's file. */
    program: string;
  }
}

/** The name stands in the AppArmor profile beside this file. */
const NAME = 'gambrel-smoke-build-';

export default async function packOnce(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), NAME));
  project.provide('program', await packReal(folder));
  return () => rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
}

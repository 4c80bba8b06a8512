import { globSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import vue from '@vitejs/plugin-vue';
import { defineConfig } from 'vitest/config';
import { words } from './src/words/compile/compile.ts';

const TESTS = 'test/**/*.test.ts';
/**
 * Rooms whose test files share a worker, so that it loads the program once and not once for each file: half of the computing
 * of these rooms was loading.
 */
const ROOMS = 'test/{core,book,desk,ui}/**/*.test.ts';
/** What changes a module or the process for everybody in the worker, or needs a page of its own. */
const NEEDS_OWN_WORKER = /vi\.mock\(|process\.env\.\w+ =|@vitest-environment/;
const together = globSync(ROOMS).filter((file) => !NEEDS_OWN_WORKER.test(readFileSync(file, 'utf8')));

export default defineConfig({
  plugins: [words(import.meta.dirname), vue()],
  test: {
    environment: 'node',
    globalSetup: ['test/new-enough-node.ts', 'test/run-folder.ts'],
    setupFiles: ['test/property-seed.ts'],
    env: { TZ: 'America/Denver' },
    // The browser tests wait more than they compute, so that even two processors carry two files at a time.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    testTimeout: 20_000,
    // A theme or a layout that a slow computer takes longer to follow is no failure.
    expect: { poll: { timeout: 10_000 } },
    // The first browser test after a build generates the demo, which takes a slow computer more than a minute.
    hookTimeout: 180_000,
    projects: [
      { extends: true, test: { name: 'together', include: together, isolate: false } },
      { extends: true, test: { name: 'apart', include: [TESTS], exclude: together } },
    ],
  },
});

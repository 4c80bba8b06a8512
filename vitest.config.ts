import { globSync, readFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import vue from '@vitejs/plugin-vue';
import { defineConfig } from 'vitest/config';
import { words } from './src/words/compile/compile.ts';

/**
 * Test files share a worker, so that it loads the program, and starts a browser, once and not once for each file: half of the
 * computing was loading. Not those that change a module or the process for everybody in the worker, need a page of their own, or
 * start the shell, which begins once in a process.
 */
const NEEDS_OWN_WORKER = /vi\.mock\(|process\.env\.\w+ =|@vitest-environment/;
const tests = globSync('test/**/*.test.ts');
const apart = tests.filter(
  (file) => /^test[\\/]shell[\\/]/.test(file) || NEEDS_OWN_WORKER.test(readFileSync(file, 'utf8')),
);
/** These drive a browser or another program, and wait for it more than they compute. */
const DRIVING = /^test[\\/](e2e|bridge|smoke|start|torture)[\\/]/;
/** These mount parts of the window, most of them on a played desk, and share a worker and its document. */
const mounted = apart.filter((file) => {
  const text = readFileSync(file, 'utf8');
  const mocks = text.match(/vi\.mock\(.*/g) ?? [];
  return (
    text.includes('@vitest-environment happy-dom') &&
    !text.includes('in a worker of its own') &&
    mocks.every((mock) => mock.includes('played-desk'))
  );
});
const together = tests.filter((file) => !apart.includes(file));

const cores = availableParallelism();

export default defineConfig({
  plugins: [words(import.meta.dirname), vue()],
  test: {
    environment: 'node',
    globalSetup: ['test/new-enough-node.ts', 'test/run-folder.ts'],
    setupFiles: ['test/property-seed.ts'],
    env: { TZ: 'America/Denver' },
    testTimeout: 20_000,
    // A theme or a layout that a slow computer takes longer to follow is no failure.
    expect: { poll: { timeout: 10_000 } },
    // The first browser test after a build generates the demo, which takes a slow computer more than a minute.
    hookTimeout: 180_000,
    projects: [
      {
        extends: true,
        test: {
          name: 'computing',
          include: together.filter((file) => !DRIVING.test(file)),
          isolate: false,
          maxWorkers: Math.max(2, cores - 1),
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: 'driving',
          include: together.filter((file) => DRIVING.test(file)),
          isolate: false,
          setupFiles: ['test/property-seed.ts', 'test/own-processor.ts'],
          maxWorkers: Math.max(2, cores),
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          name: 'mounted',
          include: mounted,
          environment: 'happy-dom',
          setupFiles: ['test/property-seed.ts', 'test/ui/mounted.ts'],
          isolate: false,
          maxWorkers: Math.max(2, cores - 1),
          sequence: { groupOrder: 1 },
        },
      },
      {
        extends: true,
        test: {
          name: 'apart',
          include: apart.filter((file) => !mounted.includes(file)),
          maxWorkers: Math.max(2, cores - 1),
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});

import { defineConfig } from 'vitest/config';

/** The tests that need the real runtime are no part of `npm test`; `run.ts` starts them. */
export default defineConfig({
  test: {
    include: ['test/smoke/*.smoke.ts'],
    globalSetup: ['test/new-enough-node.ts', 'test/smoke/pack-once.ts'],
    fileParallelism: false, // one display, and programs that come to the front
    environment: 'node',
    testTimeout: 60_000,
    hookTimeout: 180_000,
  },
});

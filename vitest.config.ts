import { availableParallelism } from 'node:os';
import vue from '@vitejs/plugin-vue';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  plugins: [vue()],
  test: {
    include: ['test/**/*.test.ts'],
    environment: 'node',
    globalSetup: ['test/new-enough-node.ts', 'test/run-folder.ts'],
    setupFiles: ['test/property-seed.ts'],
    env: { TZ: 'America/Denver' },
    // The browser tests wait more than they compute, so that even two processors carry two files at a time.
    maxWorkers: Math.max(2, availableParallelism() - 1),
    testTimeout: 20_000,
    // The first browser test after a build generates the demo, which takes a slow computer more than a minute.
    hookTimeout: 180_000,
  },
});

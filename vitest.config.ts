import vue from '@vitejs/plugin-vue';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  plugins: [vue()],
  test: {
    include: ['test/**/*.test.ts'],
    environment: 'node',
    globalSetup: ['test/new-enough-node.ts'],
    setupFiles: ['test/property-seed.ts'],
    env: { TZ: 'America/Denver' },
    testTimeout: 20_000,
    hookTimeout: 60_000,
  },
});

import { defineConfig } from 'vitest/config';

// Browser tests: they drive a running server (COSTREL_URL) in headless
// Chromium, one file after the other, for they share its folder of designs.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    environment: 'node',
    fileParallelism: false,
    testTimeout: 30_000,
    hookTimeout: 30_000,
  },
});

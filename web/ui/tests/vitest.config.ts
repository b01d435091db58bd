import { defineConfig } from 'vitest/config';

// Browser tests: they drive a running server (COSTREL_URL) in one headless
// Chromium. Two files run at a time and share the folder of designs: a test that
// writes a design writes one of its own.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    environment: 'node',
    globalSetup: 'tests/chromium.ts',
    maxWorkers: 2,
    isolate: false, // a worker keeps its connection and its pages from file to file
    testTimeout: 180_000, // a busy machine is slow, not wrong
    hookTimeout: 60_000,
    expect: { poll: { timeout: 30_000 } }, // where a test says nothing else
  },
});

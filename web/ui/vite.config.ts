import { svelte } from '@sveltejs/vite-plugin-svelte';
import { licences } from './licences';
import { defineConfig } from 'vitest/config';

// The page is built into bundle/, which the Go package beside this file
// embeds. public/.keep keeps the folder in git, so that Go compiles without a build.
const server = process.env.COSTREL_URL ?? 'http://127.0.0.1:8340';

export default defineConfig({
  plugins: [svelte(), licences()],
  base: './',
  build: {
    outDir: 'bundle',
    emptyOutDir: true, // public/.keep comes back with every build
    assetsDir: 'assets',
    assetsInlineLimit: 0, // no data: addresses; the content-security policy forbids them
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'], // light-dark() as written
    modulePreload: { polyfill: false },
  },
  server: { host: '127.0.0.1', proxy: { '/api': server } },
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
});

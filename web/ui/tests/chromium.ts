// One headless Chromium for all files; each worker has pages of its own in it.
import { chromium } from 'playwright-core';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    chromium: string; // where it listens
  }
}

const flags = [
  '--headless',
  '--no-sandbox',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-gpu',
  '--enable-unsafe-swiftshader', // 3-D is drawn in software
  '--js-flags=--single-threaded', // two pages at a time keep two cores busy without helpers
];

export default async function begin(project: TestProject): Promise<() => Promise<void>> {
  const server = await chromium.launchServer({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: flags,
  });
  project.provide('chromium', server.wsEndpoint());
  return () => server.close();
}

// The types of the page against the server it talks to.
import { readFileSync } from 'node:fs';
import openapiTS, { astToString } from 'openapi-typescript';
import { expect, it } from 'vitest';
import { server } from './browser';

it('schema.d.ts is what the running server describes (else: npm run types)', async () => {
  const now = astToString(await openapiTS(new URL(`${server}/api/openapi.json`)));
  const kept = readFileSync(new URL('../src/api/schema.d.ts', import.meta.url), 'utf8');
  const code = (text: string) => text.replace(/^\/\*\*[\s\S]*?\*\/\n/, '').trim(); // without the head
  expect(code(kept)).toBe(code(now));
});

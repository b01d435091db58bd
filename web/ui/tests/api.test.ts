// The types of the page against the server it talks to.
import { readFileSync } from 'node:fs';
import openapiTS, { astToString } from 'openapi-typescript';
import { expect, it } from 'vitest';
import type { CheckAnswer, ResolvedInput, UnitTable } from '../src/api/types';
import { judge } from '../src/unit/judge';
import { Units } from '../src/unit/table';
import { server } from './browser';

it('schema.d.ts is what the running server describes (else: npm run types)', async () => {
  const now = astToString(await openapiTS(new URL(`${server}/api/openapi.json`)));
  const kept = readFileSync(new URL('../src/api/schema.d.ts', import.meta.url), 'utf8');
  const code = (text: string) => text.replace(/^\/\*\*[\s\S]*?\*\/\n/, '').trim(); // without the head
  expect(code(kept)).toBe(code(now));
});

// What the page takes goes into the design unasked, and what it refuses unasked
// never gets there: on both the reader of the server has the same word.
const spellings = [
  '12|1.5|-3|+4|.5|5.|1e1|1e-300|1e400|1,5|1.2.3|nan|1/2|0x10|12 %|30000000|1.5e6|0.5|50 %',
  '5.mm|5. mm|3 MM|0.12 in|1e1mm|1e-300 mm|\u22122 mm|4\u00a0mm|40 ms|3 s|4 vol|7.9 g/L|11 °Brix',
  '20 °C|290 K|-1 K|-300 °C|-500 °F|68 F|7 bar(g)|-2 bar(g)|-1.0132 bar(g)|-14.7 psi(g)|7 bar|8 bar(a)|100 psig',
  `1${'0'.repeat(210)} mm`,
].flatMap((line) => line.split('|'));
const inputs = [
  'preform.wall',
  'drink.fill_temperature',
  'blow.pre_blow',
  'drink.carbonation',
  'brief.per_year',
];

it('page and server read what is typed alike', async () => {
  const ask = async <T>(path: string, body?: unknown): Promise<T> => {
    const init = {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: JSON.stringify(body),
    };
    return (await (await fetch(server + path, body ? init : {})).json()) as T;
  };
  const units = new Units(await ask<UnitTable>('/api/units'));
  const check = (edits: { path: string; text: string }[]) =>
    ask<CheckAnswer>('/api/check', { name: 'sorrel-lime.yaml', brief: true, edits });
  const listed = (await check([])).resolved as ResolvedInput[];
  const apart: string[] = [];
  let judged = 0;
  for (const path of inputs) {
    const input = listed.find((i) => i.path === path)!;
    for (const text of spellings) {
      const here = judge(units, input, text, 'eu');
      if ('fault' in here && here.ask) continue;
      judged++;
      const answer = await check([{ path, text }]);
      const there = answer.board && (answer.resolved ?? []).find((i) => i.path === path)?.value;
      const same =
        'si' in here
          ? typeof there === 'number' && Math.abs(there - here.si) <= 1e-12 * Math.abs(here.si)
          : !answer.board;
      if (!same) apart.push(`${path} “${text}”: ${JSON.stringify(here)} against ${String(there)}`);
    }
  }
  expect(apart).toEqual([]);
  expect(judged).toBeGreaterThan(50);
});

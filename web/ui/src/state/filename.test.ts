import { expect, it } from 'vitest';
import { copyName, ended, fileNameOf } from './filename';

it.each([
  ['Sorrel Lime 1.75 L', 'sorrel-lime-1.75-l.yaml'],
  ['  Über: Säfte/2 ', 'über-säfte-2.yaml'],
  ['...', ''],
])('%s becomes %s', (name, file) => expect(fileNameOf(name)).toBe(file));

it('ends a file name once', () => {
  expect(ended(' a ')).toBe('a.yaml');
  expect(ended('a.yaml')).toBe('a.yaml');
  expect(ended('a.yml')).toBe('a.yaml');
  expect(ended('')).toBe('');
});

it('counts copies on', () => {
  expect(copyName('a.yaml', [])).toBe('a-2.yaml');
  expect(copyName('a-2.yaml', ['a-2.yaml', 'a-3.yaml'])).toBe('a-4.yaml');
});

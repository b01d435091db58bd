import { expect, it } from 'vitest';
import { copyName, ended, endsTwice, fileNameOf, stemLength } from './filename';

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

it('knows an ending in the middle of a name', () => {
  for (const name of ['a-2.yamlb.yaml', 'a.yaml.yaml', 'a.YML b', 'a.yaml copy'])
    expect(endsTwice(name), name).toBe(true);
  for (const name of ['a.yaml', 'a.yml', ' a.yaml ', 'yaml.a', 'a-yaml-b.yaml', ''])
    expect(endsTwice(name), name).toBe(false);
  expect(stemLength('sorrel-lime-2.yaml')).toBe(13);
  expect(stemLength('sorrel')).toBe(6);
});

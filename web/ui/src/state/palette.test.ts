import { expect, it } from 'vitest';
import { found, type Command } from './palette';

const list: Command[] = ['Save', 'Bottle: Wall of the neck', 'Wall', 'Preform wall', 'Thinnest wall'].map(
  (label, i) => ({ id: String(i), label, group: i === 0 ? 'Action' : 'Input', run: () => undefined }),
);

it('finds every word, the best label first', () => {
  expect(found(list, 'wall').map((c) => c.label)).toEqual([
    'Wall',
    'Bottle: Wall of the neck',
    'Preform wall',
    'Thinnest wall',
  ]);
  expect(found(list, 'wall pre').map((c) => c.label)).toEqual(['Preform wall']);
  expect(found(list, 'action').map((c) => c.label)).toEqual(['Save']);
  expect(found(list, 'nothing')).toEqual([]);
  expect(found(list, ' ', 2).length).toBe(2);
});

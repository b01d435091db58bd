import { describe, expect, it } from 'vitest';
import { differing } from './lines';

describe('differing', () => {
  it('pairs changed lines and leaves equal ones out', () => {
    expect(differing('a\nb: 1\nc', 'a\nb: 2\nc')).toEqual([['b: 1', 'b: 2']]);
    expect(differing('a\nc', 'a\nb\nc')).toEqual([['', 'b']]);
    expect(differing('a\nb\nc', 'c')).toEqual([
      ['a', ''],
      ['b', ''],
    ]);
    expect(differing('same', 'same')).toEqual([]);
  });
});

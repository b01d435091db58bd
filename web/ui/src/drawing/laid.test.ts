import { expect, it } from 'vitest';
import type { Plot } from '../api/types';
import { heightFor, laid } from './laid';

const axis = (label: string, quantity = 'length') => ({ label, quantity, unit: 'mm' });
const shape = (x: number[], y: number[], up = 'height') =>
  ({
    key: 'k',
    stage: 's',
    title: 't',
    x: axis('radius'),
    y: axis(up),
    series: [{ name: 'unloaded', x, y }],
  }) as unknown as Plot;

it('lays a tall shape on its side, and leaves a round one, and what is no shape', () => {
  const bottle = laid(shape([0, 0.03, 0.01], [0, 0.1, 0.2]))!;
  expect([bottle.x.label, bottle.y.label]).toEqual(['height', 'radius']);
  expect(bottle.series![0]!.x).toEqual([0, 0.1, 0.2]);
  expect(bottle.series![0]!.y).toEqual([0, 0.03, 0.01]);
  expect(laid(shape([-0.03, 0.03], [-0.03, 0.03], 'y'))).toBeNull();
  expect(laid(shape([0, 1], [0, 9], 'wall'))).toBeNull();
  expect(laid(shape([], []))).toBeNull();
});

it('asks for the height that one scale needs, and enough to be read', () => {
  expect(heightFor(500, 0.2, 0.04)).toBe(100);
  expect(heightFor(200, 0.2, 0.04)).toBe(80);
  expect(heightFor(200, 0, 0.04)).toBe(80);
});

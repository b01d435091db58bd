import { expect, it } from 'vitest';
import { spread } from './spread';

it.each([
  [[], []],
  [[10], [10]],
  [
    [10, 40],
    [10, 40],
  ],
  [
    [10, 12],
    [1, 21],
  ],
  [
    [10, 10, 10],
    [-10, 10, 30],
  ],
  [
    [0, 2, 100],
    [-9, 11, 100],
  ],
  [
    [0, 2, 24],
    [-11.33, 8.67, 28.67],
  ],
])('%j stands at %j', (wanted, want) => {
  const got = spread(wanted, 20);
  got.forEach((v, i) => expect(v).toBeCloseTo(want[i]!, 1));
  for (let i = 1; i < got.length; i++) expect(got[i]! - got[i - 1]!).toBeGreaterThanOrEqual(20 - 1e-9);
});

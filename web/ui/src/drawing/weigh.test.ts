import { describe, expect, it } from 'vitest';
import type { Bottle } from '../api/types';
import { plastic, weighed } from './weigh';

const n = 41;
const tube = (r: (z: number) => number, wall: number) => {
  const z = Array.from({ length: n }, (_, i) => (0.2 * i) / (n - 1));
  const bottle = { r: z.map(r), z, ri: z.map((h) => r(h) - wall), zi: z, wall: z.map(() => wall) };
  return {
    ...bottle,
    planes: [
      { z: 0.06, label: '' },
      { z: 0.15, label: '' },
    ],
  } as unknown as Bottle;
};

describe('plastic', () => {
  it.each([0.06, 0.1, 0.1234, 0.2])('is that of a tube up to %d m, by its two radii', (h) => {
    const exact = Math.PI * (0.05 ** 2 - 0.0497 ** 2) * h;
    expect(
      plastic(
        tube(() => 0.05, 3e-4),
        h,
      ) / exact,
    ).toBeCloseTo(1, 9);
  });
});

describe('weighed', () => {
  it('hands over what lies between the old and the new plane, and nothing else', () => {
    const zones = [
      { name: 'base', from: 0, to: 0.06, grams: 10 },
      { name: 'panel', from: 0.06, to: 0.15, grams: 20 },
      { name: 'shoulder', from: 0.15, to: 0.2, grams: 15 },
    ];
    const b = tube(() => 0.05, 3e-4);
    const out = weighed(b, zones, [0.07, 0.15], 1370);
    const slice = 1370e3 * Math.PI * (0.05 ** 2 - 0.0497 ** 2) * 0.01; // g
    expect(out.map((z) => z.grams)).toEqual([
      expect.closeTo(10 + slice, 6),
      expect.closeTo(20 - slice, 6),
      15,
    ]);
    expect(out[0]!.to).toBe(0.07);
    expect(zones[0]!.grams).toBe(10);
    const both = weighed(b, zones, [0.05, 0.16], 1370);
    expect(both.reduce((sum, z) => sum + z.grams, 0)).toBeCloseTo(45, 9);
  });
});

import { expect, it } from 'vitest';
import type { Buckling } from '../api/types';
import { plan, section, widest } from './mode';

const mode = {
  test: 'top load',
  n: 3,
  load: 200,
  s: [0, 0.1, 0.2],
  r: [0.04, 0.05, 0.04],
  z: [0, 0.1, 0.2],
  u: [0, 1, 0.2],
  w: [0, 0.1, 0],
  v: [0, -0.3, 0],
} as Buckling;

it('moves the section out at the crest and in at the trough', () => {
  expect(section(mode, 0.01, 0)).toEqual([
    { r: 0.04, z: 0 },
    { r: 0.05, z: 0.1 },
    { r: 0.04, z: 0.2 },
  ]);
  expect(section(mode, 0.01, 1)[1]!.r).toBeCloseTo(0.06, 12);
  expect(section(mode, 0.01, -1)[1]!.z).toBeCloseTo(0.099, 12);
});

it('has as many waves round the axis as the mode', () => {
  expect(widest(mode)).toBe(1);
  const ring = plan(mode, 1, 0.005, 360);
  const radius = ring.map((p) => Math.hypot(p.x, p.y));
  let crests = 0;
  for (let i = 0; i < 360; i++) {
    if (radius[i]! > radius[(i + 359) % 360]! && radius[i]! >= radius[(i + 1) % 360]!) crests++;
  }
  expect(crests).toBe(3);
  expect(ring[0]!.x).toBeCloseTo(0.055, 12);
  expect(plan(mode, 1, 0).every((p) => Math.abs(Math.hypot(p.x, p.y) - 0.05) < 1e-12)).toBe(true);
});
